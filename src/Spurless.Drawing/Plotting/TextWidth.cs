using Spurless.Drawing.Typefaces;

namespace Spurless.Drawing.Plotting;

/// <summary>
/// How wide a text of a picture is: the sum of the advance widths of the typeface that travels with the program. Pictures are drawn without
/// kerning and ligatures (drawing.css), so that the sum is the width; the browser tests compare it with the boxes that come out.
/// A letter that the typeface lacks counts a whole em, wider than the letters of any common face.
/// </summary>
public static class TextWidth
{
    private const short Unknown = 1000;

    private static readonly Widths Figures = new(TypefaceWidths.Figures);
    private static readonly Widths FiguresSemibold = new(TypefaceWidths.FiguresSemibold);
    private static readonly Widths Italic = new(TypefaceWidths.TextItalic);

    /// <summary>The width of a line of text in the sans of labels and figures.</summary>
    /// <param name="text">One line.</param>
    /// <param name="size">Size of type in the picture's units.</param>
    /// <param name="bold">Whether it is semibold.</param>
    /// <returns>In the picture's units.</returns>
    public static double Of(string text, double size, bool bold = false) => Sum(bold ? FiguresSemibold : Figures, text) * size / 1000;

    /// <summary>The width of a line of text in the italic serif that names curves and regions.</summary>
    /// <param name="text">One line.</param>
    /// <param name="size">Size of type in the picture's units.</param>
    /// <returns>In the picture's units.</returns>
    public static double OfItalic(string text, double size) => Sum(Italic, text) * size / 1000;

    /// <summary>The longest beginning that fits, with an ellipsis where something is cut off.</summary>
    /// <param name="text">One line.</param>
    /// <param name="width">In the picture's units.</param>
    /// <param name="size">Size of type.</param>
    /// <param name="bold">Whether it is semibold.</param>
    public static string Fit(string text, double width, double size, bool bold = false)
    {
        if (Of(text, size, bold) <= width)
        {
            return text;
        }

        for (int keep = text.Length - 1; keep > 0; keep--)
        {
            string cut = text[..keep].TrimEnd() + "\u2026";
            if (!char.IsHighSurrogate(text[keep - 1]) && Of(cut, size, bold) <= width)
            {
                return cut;
            }
        }

        return "";
    }

    private static double Sum(Widths widths, string text)
    {
        double sum = 0;
        foreach (char c in text)
        {
            sum += widths[c];
        }

        return sum;
    }

    /// <summary>The widths of one face by character.</summary>
    private sealed class Widths
    {
        private readonly short[] _of = new short[0x2700];

        public Widths((char First, short[] Widths)[] runs)
        {
            Array.Fill(_of, Unknown);
            foreach ((char first, short[] run) in runs)
            {
                run.CopyTo(_of, first);
            }
        }

        public short this[char c] => c < _of.Length ? _of[c] : Unknown;
    }
}
