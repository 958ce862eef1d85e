/* shell.c - the page that anybody may open: it holds nothing. Its script takes the token out of
 * the address, where no server sees it, asks for the page of the job with it, and hands that to
 * the service worker, which opens it from then on, without a network too. */
#include "serve/answer.h"

const char mf_serve_shell[] =
    "<!doctype html>\n"
    "<html lang=\"en\">\n"
    "<meta charset=\"utf-8\">\n"
    "<meta name=\"viewport\" content=\"width=device-width\">\n"
    "<title>mistfold</title>\n"
    "<h1>mistfold</h1>\n"
    "<p id=\"said\" role=\"status\">Loading the job ... / Cargando el trabajo ...</p>\n"
    "<noscript>This page needs JavaScript. / Esta p\xC3\xA1gina necesita JavaScript.</noscript>\n"
    "<script src=\"/boot.js\"></script>\n"
    "</html>\n";

/* A page that is kept is never replaced here: what was logged on it and has not left is kept
 * with it. The page itself asks for a newer one once all has arrived. The token stays in the
 * browser's storage of this origin, so that the page can hand over what
 * was logged; it goes out of the address, which people photograph and send on. */
const char mf_serve_boot[] =
    "'use strict';\n"
    "(async () => {\n"
    "  const said = document.getElementById('said');\n"
    "  const say = text => { said.textContent = text; };\n"
    "  const job = location.pathname.split('/').pop(), path = '/field/' + job;\n"
    "  const key = 'mistfold.token.' + job;\n"
    "  const fresh = location.hash.slice(1);\n"
    "  if (fresh) {\n"
    "    localStorage.setItem(key, fresh);\n"
    "    history.replaceState(null, '', location.pathname);\n"
    "  }\n"
    "  const token = localStorage.getItem(key);\n"
    "  const kept = 'caches' in window ? await caches.open('mistfold') : null;\n"
    "  if (kept && await kept.match(path) && navigator.serviceWorker.controller)\n"
    "    return location.replace(path);\n"
    "  if (!token)\n"
    "    return say('Open the link of your invitation. / Abra el enlace de su "
    "invitaci\\u00f3n.');\n"
    "  if (!('serviceWorker' in navigator))\n"
    "    return say('This browser keeps no page offline: open the link over https. / ' +\n"
    "               'Este navegador no guarda la p\\u00e1gina: abra el enlace por https.');\n"
    "  try {\n"
    "    const answer = await fetch('/page/' + job, {\n"
    "      headers: { Authorization: 'Bearer ' + token }, credentials: 'omit', cache: 'no-store'\n"
    "    });\n"
    "    if (!answer.ok)\n"
    "      return say(answer.status === 401\n"
    "        ? 'The invitation is over or was withdrawn. / La invitaci\\u00f3n ya no vale.'\n"
    "        : 'The office answers with ' + answer.status + '. / La oficina responde ' +\n"
    "          answer.status + '.');\n"
    "    await kept.put(path, answer);\n"
    "    const policy = window.trustedTypes ? trustedTypes.createPolicy('worker',\n"
    "      { createScriptURL: url => url }) : { createScriptURL: url => url };\n"
    "    await navigator.serviceWorker.register(policy.createScriptURL('/worker.js'));\n"
    "    await navigator.serviceWorker.ready;\n"
    "    if (!navigator.serviceWorker.controller)\n"
    "      await new Promise(done =>\n"
    "        navigator.serviceWorker.addEventListener('controllerchange', done, { once: true }));\n"
    "    location.replace(path);\n"
    "  } catch (e) {\n"
    "    say('The office cannot be reached. / No se puede llegar a la oficina.');\n"
    "  }\n"
    "})();\n";

/* A page that was kept is opened from there, whatever the network is like. The address of an
 * invitation, /new/JOB, is left to the office: it brings the newest page. */
const char mf_serve_worker[] =
    "'use strict';\n"
    "self.addEventListener('install', event => event.waitUntil(self.skipWaiting()));\n"
    "self.addEventListener('activate', event => event.waitUntil(self.clients.claim()));\n"
    "self.addEventListener('fetch', event => {\n"
    "  const url = new URL(event.request.url);\n"
    "  const page = event.request.mode === 'navigate' && url.origin === self.location.origin &&\n"
    "    /^\\/field\\/[A-Za-z0-9._-]+$/.test(url.pathname) && url.search === '';\n"
    "  if (!page)\n"
    "    return;\n"
    "  event.respondWith((async () => {\n"
    "    const kept = await (await caches.open('mistfold')).match(url.pathname);\n"
    "    return kept || fetch(event.request);\n"
    "  })());\n"
    "});\n";
