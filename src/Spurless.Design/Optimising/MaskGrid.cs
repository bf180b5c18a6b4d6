using Spurless.Circuits.Tolerance;
using Spurless.Design.Questions;

namespace Spurless.Design.Optimising;

/// <summary>The demands of a requirement at a number of frequencies.</summary>
internal sealed class MaskGrid
{
    private MaskGrid(double[] frequenciesHz, MaskPoint[] points) => (FrequenciesHz, Points) = (frequenciesHz, points);

    /// <summary>The frequencies in hertz.</summary>
    public double[] FrequenciesHz { get; }

    /// <summary>The demands.</summary>
    public MaskPoint[] Points { get; }

    /// <summary>The demands on a grid.</summary>
    /// <param name="question">The requirement.</param>
    /// <param name="span">Points of a span, edges included.</param>
    public static MaskGrid Of(DesignQuestion question, int span)
    {
        List<double> frequencies = [];
        List<MaskPoint> points = [];
        foreach (MaskLine line in Lines(question))
        {
            int count = line.ToHz > line.FromHz ? span : 1;
            for (int i = 0; i < count; i++)
            {
                int at = frequencies.Count;
                frequencies.Add(count == 1 ? line.FromHz : line.FromHz + ((line.ToHz - line.FromHz) * i / (count - 1)));
                if (line.MostLossDb is { } most)
                {
                    points.Add(new(at, DemandKind.PassLoss, most));
                }

                if (line.LeastReturnLossDb is { } match)
                {
                    points.Add(new(at, DemandKind.ReturnLoss, match));
                }

                if (line.LeastLossDb is { } least)
                {
                    points.Add(new(at, DemandKind.Rejection, least));
                }
            }
        }

        return new([.. frequencies], [.. points]);
    }

    /// <summary>The requirement as lines: the pass-band first, then what is to be kept out.</summary>
    public static IReadOnlyList<MaskLine> Lines(DesignQuestion question) =>
    [
        new MaskLine(question.PassFromHz, question.PassToHz, MostLossDb: question.MostLossDb,
            LeastReturnLossDb: question.LeastReturnLossDb),
        .. question.Reject.Select(static r => new MaskLine(r.FromHz, r.ToHz, LeastLossDb: r.LeastLossDb)),
    ];
}
