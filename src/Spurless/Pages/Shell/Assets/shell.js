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
  const valueOf = e => e.type === 'checkbox' ? String(e.checked) : e.value;
  const settled = (e, value) => e.dataset.value === value;

  // Typing is noted as it happens; what the server has taken is dropped when it is looked at.
  addEventListener('input', event => {
    const e = field(event.target);
    if (!e) return;
    const was = kept.get(keyOf(e));
    kept.set(keyOf(e), { value: valueOf(e), seen: was ? was.seen : e.dataset.value ?? '' });
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
      if (e === document.activeElement && valueOf(e) === k.value) continue;
      if (e.type === 'checkbox') e.checked = k.value === 'true';
      else e.value = k.value;
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
          try { sessionStorage.setItem(store + '-at', field(document.activeElement)?.dataset.keep ?? ''); } catch { /* the focus is lost, no more */ }
          location.reload();
          return;
        }
      } catch { /* not there yet */ }
      await new Promise(r => setTimeout(r, 500));
    }
  };

  // A form that is a draft keeps also what was typed and not left yet, over a reload.
  addEventListener('pagehide', () => {
    prune();
    kept = new Map([...kept].filter(([key]) => fields().some(e => keyOf(e) === key && e.closest('[data-draft]'))));
    if (kept.size) save();
  });

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

  // Tables that one types into: arrows and Enter go from cell to cell as in a spreadsheet, Esc takes the typing back.
  const cell = (table, row, column) => table.querySelector(`input[data-row="${row}"][data-col="${column}"]`);
  addEventListener('keydown', event => {
    const e = event.target;
    if (!(e instanceof HTMLInputElement) || e.type !== 'text' || !e.dataset.keep || event.ctrlKey || event.metaKey || event.altKey || event.isComposing) return;
    if (event.key === 'Escape') {
      if (e.value === (e.dataset.value ?? '')) return;
      e.value = e.dataset.value ?? '';
      kept.delete(keyOf(e));
      e.dispatchEvent(new Event('input', { bubbles: true }));
      kept.delete(keyOf(e));
      event.preventDefault();
      return;
    }
    const table = e.closest('[data-grid]');
    if (!table || e.dataset.row === undefined) return;
    const row = +e.dataset.row, column = +e.dataset.col;
    const atStart = e.selectionStart === 0 && e.selectionEnd === 0, atEnd = e.selectionStart === e.value.length;
    const to = event.key === 'ArrowUp' ? cell(table, row - 1, column)
      : event.key === 'ArrowDown' || event.key === 'Enter' && !event.shiftKey ? cell(table, row + 1, column)
      : event.key === 'Enter' ? cell(table, row - 1, column)
      : event.key === 'ArrowLeft' && atStart ? cell(table, row, column - 1)
      : event.key === 'ArrowRight' && atEnd ? cell(table, row, column + 1)
      : undefined;
    if (to === undefined) return;
    event.preventDefault();
    if (to) { to.focus(); to.select(); }
    else if (event.key === 'Enter') { e.blur(); e.focus(); }
  });

  // A cell of a long table that scrolls far out of sight is left, so that what was typed there is saved before its row goes.
  addEventListener('scroll', () => {
    const e = document.activeElement;
    if (!(e instanceof HTMLInputElement) || !e.closest('[data-virtual]') || e.value === (e.dataset.value ?? '')) return;
    const at = e.getBoundingClientRect();
    if (at.bottom < -200 || at.top > innerHeight + 200) e.blur();
  }, { passive: true, capture: true });

  // Of a long list the page is told which rows are in sight, when others are than it drew.
  const sights = new Map();
  const ends = id => [...document.querySelectorAll(`[data-window="${CSS.escape(id)}"]`)];
  const rowHeight = top => {
    const bottom = ends(top.dataset.window)[1], shown = +top.dataset.shown;
    const height = bottom && shown ? (bottom.getBoundingClientRect().top - top.getBoundingClientRect().bottom) / shown : 0;
    return height > 0 ? height : 32;
  };
  const look = id => {
    const [top, bottom] = ends(id), sight = sights.get(id);
    if (!top || !bottom || !sight || sight.asked || !top.offsetParent) return;
    const height = rowHeight(top), at = top.getBoundingClientRect().top, from = +top.dataset.from, to = from + +top.dataset.shown;
    const first = Math.max(0, Math.floor(-at / height)), last = Math.max(first, Math.ceil((innerHeight - at) / height));
    const more = bottom.getBoundingClientRect().height > 1;
    if ((first - 4 >= from || from === 0) && (last + 4 <= to || !more)) return;
    sight.asked = true;
    sight.page.invokeMethodAsync('Seen', first, last, height).then(
      () => requestAnimationFrame(() => { sight.asked = false; look(id); }), () => sights.delete(id));
  };
  const lookAll = () => requestAnimationFrame(() => { for (const id of sights.keys()) look(id); });
  for (const type of ['scroll', 'resize', 'toggle']) addEventListener(type, lookAll, { passive: true, capture: true });

  // Rows from a spreadsheet, handed over by way of a hidden field.
  addEventListener('paste', event => {
    const e = event.target;
    const table = e instanceof HTMLInputElement && e.closest('[data-grid]');
    const text = event.clipboardData?.getData('text/plain') ?? '';
    if (!table || e.dataset.row === undefined || !/[\t\n]/.test(text.trim())) return;
    const way = document.querySelector(`[data-paste="${table.dataset.grid}"]`);
    if (!way) return;
    event.preventDefault();
    way.value = `${e.dataset.row}\t${e.dataset.col}\n${text}`;
    way.dispatchEvent(new Event('change', { bubbles: true }));
    way.value = '';
  });

  // Files dropped anywhere on a page that takes files.
  const intake = () => document.querySelector('input[type=file][data-drop]:not(:disabled)');
  const files = event => event.dataTransfer && [...event.dataTransfer.types].includes('Files');
  addEventListener('dragover', event => { if (files(event)) { event.preventDefault(); if (intake()) document.documentElement.dataset.dropping = ''; } });
  addEventListener('dragleave', event => { if (!event.relatedTarget) delete document.documentElement.dataset.dropping; });
  addEventListener('drop', event => {
    delete document.documentElement.dataset.dropping;
    if (!files(event)) return;
    event.preventDefault(); // else the browser would leave the page for the file
    const e = intake();
    if (!e) return;
    e.files = event.dataTransfer.files;
    e.dispatchEvent(new Event('change', { bubbles: true }));
  });

  // A report in its frame stands there whole: the page scrolls, not the frame.
  document.addEventListener('load', event => {
    const e = event.target;
    if (!(e instanceof HTMLIFrameElement) || !('fit' in e.dataset)) return;
    // Its box, not its scrollHeight, which is never less than the frame's own: a telephone that is turned makes the report
    // shorter again.
    const fit = () => {
      const d = e.contentDocument?.documentElement;
      if (d) e.style.height = Math.ceil(d.getBoundingClientRect().height) + 2 + 'px';
    };
    fit();
    if (e.contentDocument) new ResizeObserver(fit).observe(e.contentDocument.body);
  }, true);

  // For the pages: what has no other way.
  window.spurless = {
    printFrame: id => document.getElementById(id)?.contentWindow?.print(),
    scrollTo: id => document.getElementById(id)?.scrollIntoView(),
    watchWindow: (id, page) => { sights.set(id, { page, asked: false }); lookAll(); },
    focus: selector => document.querySelector(selector)?.focus(),
    // A cell by its field; where it has none of its own, the nearest that holds it, else the first within it.
    focusField: field => {
      for (let at = field; at;) {
        const e = fields().find(f => f.dataset.keep === at) ?? fields().find(f => f.dataset.keep.startsWith(at + '.') || f.dataset.keep.startsWith(at + '['));
        if (e) { e.scrollIntoView({ block: 'center' }); e.focus(); return; }
        // A long table draws what is in sight: its row is brought there first.
        const row = /^(\w+)\[(\d+)\]/.exec(at), top = row && document.querySelector(`[data-window="${row[1]}"][data-gap=top]`);
        if (top) {
          let tries = 60;
          const seek = () => {
            const e = fields().find(f => f.dataset.keep === at) ?? fields().find(f => f.dataset.keep.startsWith(at + '.'));
            if (e) { e.scrollIntoView({ block: 'center' }); e.focus(); return; }
            if (--tries === 0) return;
            scrollTo({ top: scrollY + top.getBoundingClientRect().top + row[2] * rowHeight(top) - innerHeight / 2, behavior: 'instant' });
            setTimeout(seek, 50);
          };
          seek();
          return;
        }
        const shorter = at.replace(/(\.[^.[\]]+|\[\d+\])$/, '');
        if (shorter === at) return;
        at = shorter;
      }
    },
    goTo: (id, line, column) => {
      const e = document.getElementById(id);
      if (!e) return;
      const lines = e.value.split('\n');
      const at = lines.slice(0, line - 1).reduce((n, l) => n + l.length + 1, 0) + column - 1;
      e.focus();
      e.setSelectionRange(at, at + (lines[line - 1] ?? '').slice(column - 1).length);
      e.scrollTop = Math.max(0, line - 5) * e.scrollHeight / lines.length;
    },
  };

  // How long the page waits for a word of the program (PageServer has the other half): a busy machine is no lost connection.
  const patience = 180_000;
  Blazor.start({
    logLevel: 4,
    circuit: { logLevel: 4, configureSignalR: hub => hub.configureLogging('error').withServerTimeout(patience), reconnectionHandler: { onConnectionDown: goDown, onConnectionUp: () => { if (down) goUp(); } } },
  }).then(live).then(() => {
    try { kept = new Map(JSON.parse(sessionStorage.getItem(store) ?? '[]')); } catch { kept = new Map(); }
    if (kept.size) putBack();
    try {
      const at = sessionStorage.getItem(store + '-at');
      sessionStorage.removeItem(store + '-at');
      if (at) document.querySelector(`[data-keep="${CSS.escape(at)}"]`)?.focus();
    } catch { /* none was kept */ }
  });
})();
