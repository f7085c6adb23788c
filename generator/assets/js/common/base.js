/* What all scripts of the site share: the data that pages load, and a few small functions.
   Plain scripts, no modules, nothing fetched: every page must work when opened from disk. */
(function () {
  "use strict";

  const given = {};
  const waiting = {};

  function keyOf(kind, data) {
    return data && data.id ? `${kind}:${data.id}` : kind;
  }

  /** Called by data files: hands data to whoever asked for it. */
  function give(kind, data) {
    const key = keyOf(kind, data);
    given[key] = data;
    (waiting[key] || []).forEach((use) => use(data));
    delete waiting[key];
  }

  /** Calls `use` with the data once its file has run; `key` is a kind or kind:id. */
  function whenGiven(key, use) {
    if (key in given) use(given[key]);
    else (waiting[key] = waiting[key] || []).push(use);
  }

  /** Loads a script of the site, once; `address` is from the site's root. Scripts run in the order asked for. */
  const loaded = {};
  function load(address) {
    if (loaded[address]) return;
    loaded[address] = true;
    const script = document.createElement("script");
    script.async = false;
    script.src = root() + address;
    document.body.append(script);
  }

  /** The way from this page to the site's root, such as "../../". */
  function root() {
    const base = JSON.parse(document.getElementById("__config").textContent).base;
    return base === "." ? "" : base.replace(/\/?$/, "/");
  }

  /** Data of one family; loads its file if need be. */
  function withFamily(id, use) {
    whenGiven(`family:${id}`, use);
    if (!(`family:${id}` in given)) load(`assets/handwheel/data/${id}.js`);
  }

  /** An element with attributes and children; strings become text, never HTML. */
  function el(name, attributes, ...children) {
    const node = document.createElement(name);
    for (const [key, value] of Object.entries(attributes || {})) {
      if (value === false || value === null || value === undefined) continue;
      if (key.startsWith("on")) node.addEventListener(key.slice(2), value);
      else node.setAttribute(key, value === true ? "" : value);
    }
    node.append(...children.flat().filter((child) => child !== null && child !== undefined && child !== false));
    return node;
  }

  /** Whether a key is an object's own: ids come from addresses and from what is kept, and may be any word. */
  function has(object, key) {
    return Object.prototype.hasOwnProperty.call(object, key);
  }

  /** Whether what was kept has the form of what a page asks for; what a list holds is never a bare word. */
  function formed(value, like) {
    if (like === null) return true;
    if (Array.isArray(like)) return Array.isArray(value) && value.every((item) => item && typeof item === "object");
    return value !== null && typeof value === typeof like && !Array.isArray(value);
  }

  /** What stays on this device. A browser may refuse; then nothing is kept. */
  const device = {
    PREFIX: "handwheel.",
    read(name, fallback) {
      try {
        const value = JSON.parse(localStorage.getItem(this.PREFIX + name));
        return value !== null && formed(value, fallback) ? value : fallback;
      } catch (error) {
        return fallback;
      }
    },
    write(name, value) {
      try {
        localStorage.setItem(this.PREFIX + name, JSON.stringify(value));
        return true;
      } catch (error) {
        return false;
      }
    },
    forget(name) {
      try {
        localStorage.removeItem(this.PREFIX + name);
      } catch (error) {
        /* nothing was kept */
      }
    },
    names() {
      try {
        return Object.keys(localStorage)
          .filter((key) => key.startsWith(this.PREFIX))
          .map((key) => key.slice(this.PREFIX.length))
          .sort();
      } catch (error) {
        return [];
      }
    },
  };

  /** Bench minutes as the pages show them: `minutes` of generator/wording/words.py. */
  function minutes(value) {
    if (value && value < 0.2) return "under ¼ min";
    const step = value < 2 ? 4 : value < 10 ? 2 : 1;
    const quarters = Math.floor(value * step + 0.5) * (4 / step);
    if (!quarters) return "0 min";
    return `${Math.floor(quarters / 4) || ""}${["", "¼", "½", "¾"][quarters % 4]} min`;
  }

  /** A share as the pages show it. */
  function percent(share) {
    if (share > 0 && share < 0.01) return "under 1 %";
    return `${Math.round(share * 100)} %`;
  }

  /** Does something while nothing else is to do, and in two seconds at the latest: a browser may never call itself idle. */
  function whenIdle(act) {
    if (window.requestIdleCallback) window.requestIdleCallback(act, { timeout: 2000 });
    else setTimeout(act, 200);
  }

  /** Does something when what was last changed can be seen: a long sum must not hold back the tick that asked for it. */
  function afterPaint(act) {
    requestAnimationFrame(() => setTimeout(act));
  }

  /** @type {any} */
  const shared = { give, whenGiven, load, root, withFamily, el, has, device, minutes, percent, whenIdle, afterPaint };
  window.handwheel = shared; // the other pieces add themselves
})();
