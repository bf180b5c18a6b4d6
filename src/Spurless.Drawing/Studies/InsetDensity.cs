using Spurless.Drawing.Plotting;
using Spurless.Drawing.Words;
using Spurless.Sites.Studies;

namespace Spurless.Drawing.Studies;

/// <summary>
/// What the magnified channel does not tell apart: harmful and marginal mixtures beyond those with a mark, as a tint that is darker where
/// there are more.
/// </summary>
internal sealed class InsetDensity(StudyPictureFrame frame, LabelPlacer words)
{
    private const int Shades = 4;
    private const double CellWidth = 10;
    private const double CellHeight = 8;

    private int _all;
    private int _most = 1;

    /// <summary>Draws the tint, under everything else.</summary>
    /// <param name="drawn">The mixtures that have a mark.</param>
    /// <param name="offset">The axis of offsets.</param>
    /// <param name="y">Where a level in dBm stands; null out of the picture.</param>
    public void Draw(IReadOnlyList<NumberedFinding> drawn, Axis offset, Func<double?, double?> y)
    {
        HashSet<int> marked = [.. drawn.Select(static f => f.Number)];
        Dictionary<(int Column, int Row), int> cells = [];
        foreach (NumberedFinding f in frame.Model.Findings)
        {
            ProductFinding? p = f.After ?? f.Before;
            if (p is null || p.Verdict is not (Verdict.Harmful or Verdict.Marginal) || marked.Contains(f.Number))
            {
                continue;
            }

            _all++;
            if (offset.Shows(p.OffsetHz) && y(p.InChannelLevelDbm) is { } at)
            {
                (int, int) cell = (
                    (int)Math.Floor((offset.Map(p.OffsetHz) - frame.Inset.Left) / CellWidth),
                    (int)Math.Floor((at - frame.Inset.Top) / CellHeight));
                cells[cell] = cells.GetValueOrDefault(cell) + 1;
            }
        }

        _most = cells.Count == 0 ? 1 : cells.Values.Max();
        foreach (((int column, int row), int count) in cells.OrderBy(static c => c.Key.Column).ThenBy(static c => c.Key.Row))
        {
            double left = frame.Inset.Left + (column * CellWidth), top = frame.Inset.Top + (row * CellHeight);
            frame.Add(new SceneRect(
                FormattableString.Invariant($"dense-{Shade(count, _most)}"),
                new PlotBox(left, top, Math.Min(left + CellWidth, frame.Inset.Right), Math.Min(top + CellHeight, frame.Inset.Bottom))));
        }
    }

    /// <summary>Says how many are tinted, where no mark is in the way: once the marks are drawn.</summary>
    public void DrawWords()
    {
        if (_all == 0)
        {
            return;
        }

        string tinted = $"tinted: {Figures.Count(_all, StudyPictureFrame.Signs)} more";
        string[] ways = _most > 9 && frame.IsWide
            ? [$"{tinted}, up to {Figures.Count(_most, StudyPictureFrame.Signs)} in one place", tinted]
            : [tinted];
        LabelSpot[] spots =
        [
            .. Enumerable.Range(0, 4).SelectMany(row => (LabelSpot[])
            [
                new(frame.Inset.Right - 6, frame.Inset.Top + 14 + (14 * row), TextAnchor.End),
                new(frame.Inset.Left + 6, frame.Inset.Top + 14 + (14 * row), TextAnchor.Start),
            ]),
        ];
        foreach (string way in ways)
        {
            if (words.Place(new SceneText("ink halo-veil", 0, 0, way), spots) is { } placed)
            {
                frame.Add(placed);
                return;
            }
        }
    }

    /// <summary>
    /// How dark a cell is, 1 to 4: by the ratio of its count to the most, so that thousands do not make one black block. Few are told by
    /// their number, so that two in one place never look like a thousand.
    /// </summary>
    internal static int Shade(int count, int most)
    {
        double top = Math.Log(Math.Max(most, 10));
        return count <= 1 ? 1 : Math.Clamp(1 + (int)Math.Ceiling(((Shades - 1) * Math.Log(count) / top) - 1e-9), 2, Shades);
    }
}
