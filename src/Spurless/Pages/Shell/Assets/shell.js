// What the server cannot do from its side: say that the connection is lost, keep what was typed meanwhile, and put it back. No other work is done here.
(() => {
  'use strict';
  const store = 'spurless-kept';
  const here = () => location.pathname;
  const field = e => e instanceof Element ? e.closest('[data-keep]') : null;
  const fields = () => [...document.querySelectorAll('[data-keep]')];
  const keyOf = e => here() + '\n' + e.dataset.keep;
  const page = () => document.querySelector('.page');
  const lost = document.getElementById('lost');
  let down = false;
  let kept = new Map(); // key of a field -> { value: as typed, seen: as it was saved when typing began }

  const save = () => { try { sessionStorage.setItem(store, JSON.stringify([...kept])); } catch { /* no room: memory alone keeps it */ } };
  const forget = () => { try { sessionStorage.removeItem(store); } catch { /* none was kept */ } };
  const settled = (e, value) => e.dataset.value === value;

  // Typing is noted as it happens; what the server has taken is dropped when it is looked at.
  addEventListener('input', event => {
    const e = field(event.target);
    if (!e) return;
    const was = kept.get(keyOf(e));
    kept.set(keyOf(e), { value: e.value, seen: was ? was.seen : e.dataset.value ?? '' });
    if (down) save();
  }, true);

  const prune = () => { for (const e of fields()) { const k = kept.get(keyOf(e)); if (k && settled(e, k.value)) kept.delete(keyOf(e)); } };

  // While nobody listens no event may reach the framework: it would be lost, with a complaint.
  for (const type of ['click', 'dblclick', 'change', 'input', 'keydown', 'keyup', 'submit', 'pointerdown', 'pointermove', 'pointerup', 'focusin', 'focusout', 'paste', 'drop', 'dragover', 'mousemove'])
    addEventListener(type, event => {
      if (!down) return;
      event.stopImmediatePropagation();
      const leads = event.target instanceof Element && event.target.closest('a[href], button, input[type=range], input[type=checkbox], input[type=radio], select, summary');
      if (leads && ['click', 'pointerdown', 'submit'].includes(type) || type === 'drop' || type === 'submit') event.preventDefault();
    }, true);

  // What was typed and not taken goes to the server as if it were typed now; where the value was changed elsewhere meanwhile, it is only put into the field.
  const putBack = () => {
    prune();
    for (const e of fields()) {
      const k = kept.get(keyOf(e));
      if (!k || settled(e, k.value)) continue;
      const changed = (e.dataset.value ?? '') !== k.seen;
      if (e === document.activeElement && e.value === k.value) continue;
      e.value = k.value;
      e.dispatchEvent(new Event('input', { bubbles: true }));
      if (!changed) e.dispatchEvent(new Event('change', { bubbles: true }));
      else e.focus();
    }
    kept = new Map([...kept].filter(([key]) => key.startsWith(here() + '\n')));
    forget();
  };

  const live = () => new Promise(done => {
    const is = () => page()?.dataset.live === 'yes';
    if (is()) { done(); return; }
    const watch = new MutationObserver(() => { if (is()) { watch.disconnect(); done(); } });
    watch.observe(document.body, { subtree: true, childList: true, attributes: true, attributeFilter: ['data-live'] });
  });

  const goUp = () => {
    down = false;
    lost.hidden = true;
    delete document.documentElement.dataset.link;
    putBack();
  };

  const again = async () => {
    const run = page()?.dataset.run;
    while (down) {
      try {
        const answer = await fetch('/alive', { cache: 'no-store' });
        if (answer.ok) {
          if (await answer.text() === run && await Blazor.reconnect()) { if (down) goUp(); return; }
          save();
          location.reload();
          return;
        }
      } catch { /* not there yet */ }
      await new Promise(r => setTimeout(r, 500));
    }
  };

  const goDown = () => {
    if (down) return;
    prune();
    down = true;
    save();
    lost.hidden = false;
    document.documentElement.dataset.link = 'lost';
    again();
  };

  // Undo and Redo by key, where no text field has an undo of its own to do.
  addEventListener('keydown', event => {
    if (down || !(event.ctrlKey || event.metaKey) || event.altKey || !['z', 'y', 'Z'].includes(event.key)) return;
    const e = event.target;
    const edits = e instanceof HTMLTextAreaElement || e instanceof HTMLInputElement && e.type === 'text';
    if (edits && e.value !== (e.dataset.value ?? e.value)) return;
    const button = document.getElementById(event.key === 'z' ? 'undo' : 'redo');
    event.preventDefault();
    if (button && !button.disabled) button.click();
  });

  // For the pages: what has no other way.
  window.spurless = {
    printFrame: id => document.getElementById(id)?.contentWindow?.print(),
    focus: selector => document.querySelector(selector)?.focus(),
  };

  Blazor.start({
    logLevel: 4,
    circuit: { logLevel: 4, configureSignalR: hub => hub.configureLogging('error'), reconnectionHandler: { onConnectionDown: goDown, onConnectionUp: () => { if (down) goUp(); } } },
  }).then(live).then(() => {
    try { kept = new Map(JSON.parse(sessionStorage.getItem(store) ?? '[]')); } catch { kept = new Map(); }
    if (kept.size) putBack();
  });
})();
