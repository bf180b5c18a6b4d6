using Microsoft.Playwright;

namespace Spurless.Browser.Browsing;

/// <summary>Where things stand on a page.</summary>
internal static class Boxes
{
    /// <summary>Boxes of the first match of each selector, from the page's top left; a selector without a match is a fault of the
    /// test.</summary>
    public static async Task<IReadOnlyDictionary<string, Box>> OfAsync(IPage page, params string[] selectors)
    {
        double[][] found = await page.EvaluateAsync<double[][]>(
            """
            all => all.map(s => {
              const e = [...document.querySelectorAll(s)].find(e => e.getClientRects().length > 0);
              if (!e) return [];
              const r = e.getBoundingClientRect();
              return [r.left + scrollX, r.top + scrollY, r.right + scrollX, r.bottom + scrollY];
            })
            """,
            selectors);
        Dictionary<string, Box> boxes = new(StringComparer.Ordinal);
        for (int i = 0; i < selectors.Length; i++)
        {
            Assert.True(found[i].Length == 4, $"Nothing is seen of '{selectors[i]}' on {page.Url}.");
            boxes[selectors[i]] = new Box(found[i][0], found[i][1], found[i][2], found[i][3]);
        }

        return boxes;
    }

    /// <summary>What stands elsewhere than before, in words.</summary>
    public static IEnumerable<string> Moved(
        IReadOnlyDictionary<string, Box> before, IReadOnlyDictionary<string, Box> after, double by = 0.5) =>
        before.Where(b => !b.Value.IsAt(after[b.Key], by)).Select(b => $"{b.Key} went from {b.Value} to {after[b.Key]}");
}

/// <summary>A box in CSS pixels.</summary>
internal readonly record struct Box(double Left, double Top, double Right, double Bottom)
{
    /// <summary>Whether all edges are where those of the other are.</summary>
    public bool IsAt(Box other, double by) => Math.Abs(Left - other.Left) <= by && Math.Abs(Top - other.Top) <= by
        && Math.Abs(Right - other.Right) <= by && Math.Abs(Bottom - other.Bottom) <= by;
}
