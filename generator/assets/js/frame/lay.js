/* Lays the frame round a page that does not carry it: header, side navigation, foot. frame.js brings what is laid and calls
   this where the side navigation stands, before the content is read, so that nothing moves once it is seen. */
(function () {
  "use strict";
  const own = /** @type {HTMLScriptElement} */ (document.currentScript);
  const toRoot = own.getAttribute("src").replace(/frame\.js$/, "");

  /** What the frame's words make; its addresses are the site's root's. */
  function made(html) {
    const holder = document.createElement("template");
    holder.innerHTML = html; // the theme's own parts, none of it from a record
    for (const link of holder.content.querySelectorAll("[href]")) {
      link.setAttribute("href", toRoot + link.getAttribute("href").replace(/^\.\//, ""));
    }
    for (const script of holder.content.querySelectorAll("script[src]")) script.remove(); // it stands in frame.js
    return holder.content;
  }

  /** The folder that this page lies in, from the site's root. */
  function folder() {
    const root = new URL(toRoot || ".", document.baseURI).pathname;
    return location.pathname.slice(root.length).split("/")[0];
  }

  /** Marks the hub that leads to this page. */
  function markHub(side, hubs) {
    const hub = hubs[folder()];
    for (const link of hub ? side.querySelectorAll(`li > a[href="${toRoot}${hub}"]`) : []) {
      link.className = "md-nav__link md-nav__link--active";
      link.setAttribute("aria-current", "location");
    }
    return side;
  }

  /** The list of what stands on the page, dressed as the theme's script knows it. */
  function dressList(title) {
    const list = document.querySelector(".hw-toc");
    if (!list) return;
    const around = made(
      '<div class="md-sidebar md-sidebar--secondary" data-md-component="sidebar" data-md-type="toc">' +
        '<div class="md-sidebar__scrollwrap"><div class="md-sidebar__inner"></div></div></div>',
    );
    const whole = around.firstElementChild;
    const name = made('<label class="md-nav__title" for="__toc"><span class="md-nav__icon md-icon"></span></label>');
    name.firstElementChild.append(title);
    list.replaceWith(around);
    whole.querySelector(".md-sidebar__inner").append(list);
    list.className = "md-nav md-nav--secondary";
    list.querySelectorAll("a").forEach((link) => (link.className = "md-nav__link"));
    const first = list.querySelector("ul");
    if (!first) return;
    first.className = "md-nav__list";
    first.dataset.mdComponent = "toc";
    first.setAttribute("data-md-scrollfix", "");
    first.before(name);
  }

  /** @type {any} */ (window).handwheelFrame = (frame) => {
    const container = document.querySelector(".md-container");
    document.head.append(made(frame.icons));
    const head = made(frame.head);
    head.querySelector("[data-md-component=header-topic] .md-ellipsis").textContent = document.title.slice(0, -` - ${frame.siteName}`.length);
    container.before(head);
    dressList(frame.toc);
    document.querySelector(".md-main__inner").prepend(markHub(made(frame.side), frame.hubs));
    for (const name of ["container", "main"]) document.querySelector(`.md-${name}`).setAttribute("data-md-component", name);
    document.addEventListener("DOMContentLoaded", () => container.append(made(frame.foot))); // sooner, the content would push it away
    const after = made(frame.after);
    const config = after.querySelector("#__config");
    config.textContent = JSON.stringify({ ...JSON.parse(config.textContent), base: toRoot.replace(/\/$/, "") || "." });
    document.body.append(after);
  };
})();
