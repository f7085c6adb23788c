/* Opened from disk, a browser starts no worker. The theme's search then runs in a hidden frame:
   the same script, the same messages, on the page's own thread. */
(function () {
  "use strict";
  if (location.protocol !== "file:") return;

  window.Worker = class extends EventTarget {
    constructor(url) {
      super();
      this.onmessage = null;
      this.waiting = [];
      this.frame = document.createElement("iframe");
      this.frame.hidden = true;
      this.frame.title = "Search";
      document.body.append(this.frame);
      this.start(String(url));
    }

    start(url) {
      const inside = this.frame.contentWindow;
      inside.postMessage = (data) => this.receive(data);
      inside.importScripts = () => {
        throw new Error("Search in other languages needs a web host.");
      };
      const script = inside.document.createElement("script");
      script.src = url;
      script.onload = () => this.ready(inside);
      inside.document.body.append(script);
    }

    ready(inside) {
      this.inside = inside;
      this.waiting.splice(0).forEach((data) => this.postMessage(data));
    }

    postMessage(data) {
      if (!this.inside) {
        this.waiting.push(data);
        return;
      }
      this.inside.dispatchEvent(new this.inside.MessageEvent("message", { data }));
    }

    receive(data) {
      const event = new MessageEvent("message", { data });
      this.dispatchEvent(event);
      if (this.onmessage) this.onmessage(event);
    }

    terminate() {
      this.frame.remove();
    }
  };
})();
