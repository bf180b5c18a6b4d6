using System.Text.Json;
using Microsoft.Playwright;

namespace Spurless.Browser.Browsing;

/// <summary>Looks at the boxes of all texts of a page, as the browser laid them out.</summary>
internal static class TextBoxes
{
    // Runs in the page from the test's side; the page itself has no script.
    private const string Script = """
        () => {
          const problems = [];
          const seen = e => {
            const s = getComputedStyle(e);
            return s.display !== 'none' && s.visibility !== 'hidden' && !e.closest('.gone, .skip')
              && e.checkVisibility() && e.getClientRects().length > 0;
          };
          // What is scrolled out of its region is seen when the region is moved; until then it lies over nothing.
          const rolledOut = (e, r) => {
            for (let p = e; p && p !== document.body; p = p.parentElement)
              if (getComputedStyle(p).overflowX === 'auto' && p.tabIndex >= 0) {
                const c = p.getBoundingClientRect();
                if (r.left > c.right - 1 || r.right < c.left + 1) return true;
              }
            return false;
          };
          const boxes = [];
          const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
          for (let n = walker.nextNode(); n; n = walker.nextNode()) {
            const e = n.parentElement;
            if (!n.data.trim() || ['STYLE', 'TITLE', 'title', 'desc'].includes(e.tagName) || !seen(e)) continue;
            const range = document.createRange(); range.selectNodeContents(n);
            for (const r of range.getClientRects()) {
              if (r.width < 0.5 || r.height < 0.5) continue;
              // The line box is taller than the letters: a fifth of it above and a sixth below are leading.
              boxes.push({
                t: n.data.trim().slice(0, 60), e, l: r.left, r: r.right, y: r.top + r.height * 0.2, b: r.bottom - r.height * 0.17,
                out: rolledOut(e, r),
              });
            }
          }
          const width = document.documentElement.clientWidth;
          if (document.documentElement.scrollWidth > width)
            problems.push(`the page is ${document.documentElement.scrollWidth} wide in a window of ${width}`);
          for (const a of boxes) {
            // What stands in a region that can be scrolled by touch and key is not lost.
            const scrolls = p => p && p !== document.body
              && (getComputedStyle(p).overflowX === 'auto' && p.tabIndex >= 0 || scrolls(p.parentElement));
            if ((a.l < -0.5 || a.r > width + 0.5) && !scrolls(a.e))
              problems.push(`'${a.t}' is cut off at the window's edge (${a.l.toFixed(1)} to ${a.r.toFixed(1)} of ${width})`);
            for (let p = a.e.closest('svg')?.parentElement ?? a.e; p && p !== document.body; p = p.parentElement) {
              const s = getComputedStyle(p);
              if (s.overflowX !== 'visible' || s.overflowY !== 'visible') {
                const r = p.getBoundingClientRect();
                const over = a.y < r.top - 0.5 || a.b > r.bottom + 0.5;
                if (over || !scrolls(a.e) && (a.l < r.left - 0.5 || a.r > r.right + 0.5))
                  problems.push(`'${a.t}' is clipped by ${p.tagName}.${p.className}`);
              }
            }
          }
          for (const svg of document.querySelectorAll('svg.pic')) {
            if (!seen(svg)) continue;
            const r = svg.getBoundingClientRect();
            for (const t of svg.querySelectorAll('text')) {
              const b = t.getBoundingClientRect();
              if (b.left < r.left - 1 || b.right > r.right + 1 || b.top < r.top - 2 || b.bottom > r.bottom + 2)
                problems.push(`'${t.textContent}' leaves its picture`);
            }
          }
          boxes.sort((p, q) => p.y - q.y);
          for (let i = 0; i < boxes.length; i++)
            for (let j = i + 1; j < boxes.length && boxes[j].y < boxes[i].b - 0.75; j++) {
              const a = boxes[i], b = boxes[j];
              if (!a.out && !b.out && a.l < b.r - 0.75 && b.l < a.r - 0.75)
                problems.push(`'${a.t}' lies over '${b.t}' at ${a.l.toFixed(0)}, ${a.y.toFixed(0)}`);
            }
          return { problems, texts: boxes.length };
        }
        """;

    /// <summary>What is wrong with the page's texts; and that there were some.</summary>
    public static async Task<(IReadOnlyList<string> Problems, int Texts)> LookAsync(IPage page)
    {
        JsonElement found = await page.EvaluateAsync<JsonElement>(Script);
        return (
            [.. found.GetProperty("problems").EnumerateArray().Select(static p => p.GetString()!)], found.GetProperty("texts").GetInt32());
    }
}
