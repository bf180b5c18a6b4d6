using System.Globalization;
using Spurless.Design.Questions;
using Spurless.Drawing.Responses;
using Spurless.Reports.Designs;

namespace Spurless.Pages.Bench;

/// <summary>What was drawn on the boards of a mask, made into a mask.</summary>
internal static class BoardMark
{
    /// <summary>The mask with what is drawn.</summary>
    /// <param name="words">The board, its width, the bar that is held (empty for a new one), where it was taken, where it is now.</param>
    /// <param name="picture">What the boards show.</param>
    /// <param name="question">The mask before.</param>
    /// <param name="height">Height of a board's frame.</param>
    /// <param name="held">The bar, and what it says meanwhile.</param>
    /// <returns>Null where nothing can be made of it.</returns>
    public static DesignQuestion? Of(
        IReadOnlyList<string> words, DesignPicture picture, DesignQuestion question, double height, out (string, string)? held)
    {
        held = null;
        ResponsePlotModel model = words[0] == "wide" ? picture.Wide : picture.Close;
        if (Numbers(words) is not [var width, var fromX, var fromY, var toX, var toY] || width < 300)
        {
            return null;
        }

        (double hertz, double lossDb) = MaskScene.At(model, width, height, toX, toY);
        List<RejectDemand> reject = [.. question.Reject];
        if (words[2].StartsWith("bar ", StringComparison.Ordinal)
            && int.TryParse(words[2].AsSpan(4), NumberStyles.None, CultureInfo.InvariantCulture, out int bar) && bar < reject.Count)
        {
            reject[bar] = reject[bar] with { LeastLossDb = lossDb };
            held = (words[2], DesignPicture.Says(reject[bar]));
            return question with { Reject = reject };
        }

        if (words[2].Length > 0)
        {
            return null;
        }

        // A new one: a hand's breadth to the side is a span, less is one frequency.
        (double begun, _) = MaskScene.At(model, width, height, fromX, fromY);
        bool span = Math.Abs(toX - fromX) > 10;
        RejectDemand made = new(span ? Math.Min(begun, hertz) : begun, span ? Math.Max(begun, hertz) : begun, lossDb);
        held = ($"bar {reject.Count.ToString(CultureInfo.InvariantCulture)}", DesignPicture.Says(made));
        return question with { Reject = [.. reject, made] };
    }

    private static double[] Numbers(IReadOnlyList<string> words)
    {
        List<double> all = [];
        foreach (string word in words.Where(static (_, i) => i is 1 or > 2))
        {
            if (!double.TryParse(word, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) || !double.IsFinite(number))
            {
                return [];
            }

            all.Add(number);
        }

        return [.. all];
    }
}
