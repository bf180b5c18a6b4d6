// The study page: what the server cannot do from its side. Keys of sliders and of the list end in the same events as the pointer's; no number is made here.
(() => {
  'use strict';
  const tell = (e, value) => {
    const was = e.value;
    e.value = value;
    if (e.value === was) return;
    e.dispatchEvent(new Event('input', { bubbles: true }));
    e.dispatchEvent(new Event('change', { bubbles: true }));
  };
  const slider = e => e instanceof HTMLInputElement && e.type === 'range' && e.dataset.file !== undefined ? e : null;

  // A double click or Backspace brings a slider back to what the file says; with Shift an arrow goes ten steps.
  addEventListener('dblclick', event => { const e = slider(event.target); if (e) tell(e, e.dataset.file); });
  addEventListener('keydown', event => {
    const e = slider(event.target);
    if (!e || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === 'Backspace') { event.preventDefault(); tell(e, e.dataset.file); return; }
    const up = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[event.key];
    if (event.shiftKey && up) { event.preventDefault(); tell(e, String(Number(e.value) + up * 10 * Number(e.step))); }
  });

  // The list of findings: Up, Down, Home, End pick; Enter opens the sum (the button's own key), Esc closes it.
  addEventListener('keydown', event => {
    const list = event.target instanceof Element ? event.target.closest('[data-findings]') : null;
    if (!list || event.ctrlKey || event.metaKey || event.altKey || event.target.matches('input, select, textarea')) return;
    const rows = [...list.querySelectorAll('button[data-finding]')].filter(b => b.offsetParent);
    const at = rows.indexOf(event.target.closest('button[data-finding]'));
    const picked = rows.findIndex(b => b.getAttribute('aria-current') === 'true');
    const from = at >= 0 ? at : picked;
    const to = { ArrowDown: from + 1, ArrowUp: from - 1, Home: 0, End: rows.length - 1 }[event.key];
    if (to !== undefined && rows[to]) {
      event.preventDefault();
      rows[to].focus();
      if (rows[to].getAttribute('aria-current') !== 'true') rows[to].click();
    } else if (event.key === 'Escape' && picked >= 0 && rows[picked].getAttribute('aria-expanded') === 'true') {
      event.preventDefault();
      rows[picked].click();
    }
  });

  // A picture is drawn for its width: the page is told it, and again when it changes. Kept for the next painting of that page.
  const watches = new WeakMap();
  window.spurless.watchWidth = (element, page, place) => {
    if (!element || watches.has(element)) return;
    const watch = new ResizeObserver(entries => {
      const width = entries[entries.length - 1].contentRect.width;
      if (width <= 0) return;
      document.cookie = `spurless-width-${place}=${Math.floor(width)}; path=/; max-age=31536000; samesite=strict`;
      page.invokeMethodAsync('Widened', width).catch(() => watch.disconnect());
    });
    watches.set(element, watch);
    watch.observe(element);
  };
})();
