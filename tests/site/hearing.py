"""What a page complains of, heard from before its first script."""

from __future__ import annotations

from playwright.sync_api import BrowserContext, Page

_HEAR = """
window.faults = [];
addEventListener("securitypolicyviolation", (event) => faults.push(`${event.effectiveDirective} ${event.blockedURI}`));
addEventListener("error", (event) => faults.push(event.message || `not loaded: ${event.target.src || event.target.href}`), true);
addEventListener("unhandledrejection", (event) => faults.push(String(event.reason)));
"""


def listening(context: BrowserContext) -> BrowserContext:
    """The context, whose pages from now on keep what their policy refuses, what does not load and what scripts trip over."""
    context.add_init_script(_HEAR)
    return context


PATIENCE = 60
"Seconds; what is waited for takes one or two where nothing else runs."


def until(tab: Page, holds: str) -> None:
    """Waits until an expression holds. The library's own way asks the page to evaluate text, which its policy refuses.

    An evaluation has no end of its own: a page that never gets there would hold up all tests.
    """
    came = tab.evaluate(
        f"""new Promise((done) => {{
          const end = performance.now() + {PATIENCE * 1000};
          const ask = () => (({holds}) ? done(true) : performance.now() > end ? done(false) : setTimeout(ask, 20));
          ask();
        }})"""
    )
    assert came, f"never came true: {holds}"


def heard(tab: Page) -> list[str]:
    """The complaints of the page that is open."""
    return tab.evaluate("window.faults")
