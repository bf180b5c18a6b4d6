// Drawings whose marks are picked: one stop for the keys with arrows inside, and drawing a line from node to node.
(() => {
  'use strict';
  const mark = e => e instanceof Element ? e.closest('svg.onestop g.pick') : null;
  const middle = e => { const r = e.getBoundingClientRect(); return { x: r.left + r.width / 2, y: r.top + r.height / 2 }; };

  // The nearest mark in the direction of the arrow; Home and End lead to the first and the last.
  addEventListener('keydown', event => {
    const at = mark(event.target);
    if (!at?.hasAttribute('role') || event.ctrlKey || event.metaKey || event.altKey) return;
    const all = [...at.ownerSVGElement.querySelectorAll('g.pick[role=button]')];
    const way = { ArrowRight: [1, 0], ArrowLeft: [-1, 0], ArrowDown: [0, 1], ArrowUp: [0, -1] }[event.key];
    let to = event.key === 'Home' ? all[0] : event.key === 'End' ? all[all.length - 1] : null;
    if (way) {
      const from = middle(at);
      let best = Infinity;
      for (const e of all) {
        const m = middle(e), along = (m.x - from.x) * way[0] + (m.y - from.y) * way[1], across = Math.abs((m.x - from.x) * way[1]) + Math.abs((m.y - from.y) * way[0]);
        if (e !== at && along > 2 && along + 2 * across < best) { best = along + 2 * across; to = e; }
      }
    }
    if (!way && !to) return;
    event.preventDefault();
    if (!to) return;
    for (const e of all) e.setAttribute('tabindex', e === to ? '0' : '-1');
    to.focus();
  });

  // From node to node: pressed on one and let go over another is handed over by way of a hidden field.
  const node = e => { const g = mark(e); return g?.dataset.target?.startsWith('node ') ? g : null; };
  let begun = null;
  addEventListener('pointerdown', event => {
    begun = node(event.target);
    if (begun && event.target.hasPointerCapture?.(event.pointerId)) event.target.releasePointerCapture(event.pointerId);
    if (begun) event.preventDefault();
  });
  addEventListener('pointerup', event => {
    const from = begun;
    begun = null;
    const to = node(document.elementFromPoint(event.clientX, event.clientY));
    if (!from || !to || from === to) return;
    const way = document.querySelector('input[data-joined]');
    if (!way) return;
    way.value = `${from.dataset.target.slice(5)}\t${to.dataset.target.slice(5)}`;
    way.dispatchEvent(new Event('change', { bubbles: true }));
    way.value = '';
  });
})();
