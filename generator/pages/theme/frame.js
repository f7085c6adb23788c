{#- What js/frame/lay.js lays round every page that does not carry it: from the theme's own parts, with addresses as the site's
root has them. -#}
{%- import "partials/language.html" as lang with context -%}
{%- set features = config.theme.features -%}
{%- set icons -%}<link rel="icon" href="{{ config.theme.favicon | url }}">{% include "partials/more-icons.html" %}{%- endset -%}
{%- set head -%}
<input class="md-toggle" data-md-toggle="drawer" type="checkbox" id="__drawer" autocomplete="off">
<input class="md-toggle" data-md-toggle="search" type="checkbox" id="__search" autocomplete="off">
<label class="md-overlay" for="__drawer"></label>
<div data-md-component="announce"></div>
{% include "partials/header.html" %}
{%- endset -%}
{%- set side -%}{% include "partials/side.html" %}{%- endset -%}
{%- set foot -%}{% include "partials/footer.html" %}{%- endset -%}
{%- set after -%}
<div class="md-dialog" data-md-component="dialog"><div class="md-dialog__inner md-typeset"></div></div>
{% include "partials/config.html" %}
{%- endset -%}
handwheelFrame({
  "icons": {{ icons | as_text }},
  "head": {{ head | as_text }},
  "side": {{ side | as_text }},
  "foot": {{ foot | as_text }},
  "after": {{ after | as_text }},
  "toc": {{ lang.t("toc") | as_text }},
  "siteName": {{ config.site_name | as_text }},
  "hubs": {{ folders_of_hubs | tojson }},
});
