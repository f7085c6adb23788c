/* From a web host, the whole book is kept on the device for use without signal. */
(function () {
  "use strict";
  if (!location.protocol.startsWith("http") || !("serviceWorker" in navigator)) return;

  function keepAll() {
    navigator.serviceWorker.ready.then((registration) => registration.active.postMessage("keep-all"));
  }

  /* A newer worker has taken over: it has the rest of its own version still to fetch. */
  navigator.serviceWorker.addEventListener("controllerchange", keepAll);

  window.addEventListener("load", () => {
    navigator.serviceWorker.register(`${handwheel.root()}sw.js`).then(keepAll, () => {
      /* A host that does not allow it: the book then works online and from disk. */
    });
  });
})();
