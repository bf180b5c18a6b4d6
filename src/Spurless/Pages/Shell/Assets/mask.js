// A mask over a response: a bar is taken at its foot, a new one is drawn where none stands. The place is told, live while the pointer moves, by way of a hidden field;
// what it means in MHz and dB the page says. No number is made here.
(() => {
  'use strict';
  const board = e => e instanceof Element ? e.closest('[data-board]')?.querySelector(':scope > svg.pic') : null;
  const place = (svg, event) => {
    const r = svg.getBoundingClientRect(), v = svg.viewBox.baseVal;
    return [(event.clientX - r.left) * v.width / r.width, (event.clientY - r.top) * v.height / r.height].map(n => n.toFixed(1));
  };
  const tell = (type, words) => {
    const way = document.querySelector('input[data-mask]:not(:disabled)');
    if (!way) return;
    way.value = words.join('\t');
    way.dispatchEvent(new Event(type, { bubbles: true }));
  };
  let held = null, due = 0;
  const words = event => [held.board, held.width, held.target, ...held.from, ...place(held.svg, event)];

  addEventListener('pointerdown', event => {
    const svg = board(event.target);
    if (!svg || event.button !== 0) return;
    const target = event.target.closest('g.pick')?.dataset.target ?? '';
    if (!target.startsWith('bar ') && event.pointerType === 'touch') return; // a finger scrolls; it takes bars, and types new ones
    held = { svg, board: svg.parentElement.dataset.board, width: svg.viewBox.baseVal.width, target: target.startsWith('bar ') ? target : '', from: place(svg, event), x: event.clientX, y: event.clientY, moved: false };
    if (event.target.hasPointerCapture?.(event.pointerId)) event.target.releasePointerCapture(event.pointerId);
    event.preventDefault();
  });
  addEventListener('pointermove', event => {
    if (!held) return;
    held.moved ||= Math.hypot(event.clientX - held.x, event.clientY - held.y) > 4;
    if (!held.moved || due) return;
    due = requestAnimationFrame(() => { due = 0; if (held) tell('input', words(event)); });
  });
  addEventListener('pointerup', event => {
    const was = held;
    if (was?.moved) tell('change', words(event));
    held = null;
  });
  const leave = () => { if (held?.moved) tell('change', ['leave']); held = null; };
  addEventListener('pointercancel', leave);
  addEventListener('keydown', event => { if (event.key === 'Escape' && held) leave(); });
})();
