using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;
using Spurless.Design.Designing;
using Spurless.Design.Questions;
using Spurless.Drawing.Responses;
using Spurless.Radio.Quantities;

namespace Spurless.Reports.Designs;

/// <summary>The pictures of a design on a page: the mask over a response, and candidates as small ones.</summary>
public sealed class DesignPicture
{
    private const double NearFraction = 0.2;

    private DesignPicture(ResponsePlotModel wide, ResponsePlotModel close, IReadOnlyList<MaskBar> bars) =>
        (Wide, Close, Bars) = (wide, close, bars);

    /// <summary>Gain over all that is asked.</summary>
    public ResponsePlotModel Wide { get; }

    /// <summary>Gain about the pass-band.</summary>
    public ResponsePlotModel Close { get; }

    /// <summary>The bars of the mask, to take at their feet: <c>bar 0</c> is the first rejection.</summary>
    public IReadOnlyList<MaskBar> Bars { get; }

    /// <summary>The pictures of a mask, with a circuit's response where there is one.</summary>
    /// <param name="question">The mask.</param>
    /// <param name="names">Names of the rejections, by their numbers; null for one without.</param>
    /// <param name="circuit">The circuit that is held against it; null for none.</param>
    /// <param name="beside">Another circuit, dashed; null for none.</param>
    public static DesignPicture Of(
        DesignQuestion question, IReadOnlyList<string?> names, Circuit? circuit, (string Name, Circuit Circuit)? beside)
    {
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(names);
        Func<double, double> gain = Gain(circuit) ?? (static _ => double.NaN);
        Func<double, double>? other = beside is { } b ? Gain(b.Circuit) : null;
        double low = question.PassFromHz, high = question.PassToHz;
        foreach (RejectDemand r in question.Reject)
        {
            (low, high) = (Math.Min(low, r.FromHz), Math.Max(high, r.ToHz));
        }

        double deepest = question.Reject.Select(static r => r.LeastLossDb).DefaultIfEmpty(40).Max();
        (double closeFrom, double closeTo) = Near(question);
        PlotMark[] marks = [.. question.Reject.Select((r, i) => new PlotMark((r.FromHz + r.ToHz) / 2, Letter(i)))];
        ResponsePlotModel all = new()
        {
            Title = circuit is null ? "What is asked" : "Response of the chosen circuit against what is asked",
            Quantity = gain,
            AxisTitle = "gain, dB",
            CurveName = circuit is null ? "" : "as designed",
            FromHz = low / 1.15,
            ToHz = high * 1.15,
            Logarithmic = true,
            Low = -20 * Math.Ceiling((deepest + 25) / 20),
            High = 0,
            Marks = marks,
            ChannelHz = 1e3 * Math.Round((question.PassFromHz + question.PassToHz) / 2e3),
            Overlay = new PlotOverlay { Demands = Demands(question), Beside = other, BesideWords = beside?.Name ?? "beside it" },
        };
        double nearest = question.Reject.Where(r => r.ToHz >= closeFrom && r.FromHz <= closeTo).Select(static r => r.LeastLossDb)
            .DefaultIfEmpty(30).Max();
        ResponsePlotModel close = all with
        {
            FromHz = closeFrom,
            ToHz = closeTo,
            Logarithmic = false,
            Low = -10 * Math.Ceiling((nearest + 12) / 10),
            Title = circuit is null ? "What is asked about the pass-band" : "The same about the pass-band",
        };
        return new(all, close, [.. question.Reject.Select((r, i) => new MaskBar(
            FormattableString.Invariant($"bar {i}"), r.FromHz, r.ToHz, r.LeastLossDb, Words(r, i < names.Count ? names[i] : null)))]);
    }

    /// <summary>A candidate as a small picture: gain about the pass-band.</summary>
    public static ResponsePlotModel Small(DesignQuestion question, DesignCandidate candidate)
    {
        ArgumentNullException.ThrowIfNull(candidate);
        DesignPicture picture = Of(question, [], candidate.Circuit, null);
        return picture.Close with { Title = DesignWords.Capital(candidate.Family) };
    }

    /// <summary>What a step of the alignment should show, as a small picture.</summary>
    public static ResponsePlotModel Step(Design.Tuning.TuningStep step)
    {
        ArgumentNullException.ThrowIfNull(step);
        return DesignView.Curve(step);
    }

    /// <summary>The letter of a rejection: A for the first.</summary>
    public static string Letter(int number) =>
        number < 26 ? ((char)('A' + number)).ToString() : FormattableString.Invariant($"{(char)('A' + (number % 26))}{number / 26}");

    /// <summary>The demands of a mask as they are drawn in a plot of gain.</summary>
    internal static IReadOnlyList<PlotDemand> Demands(DesignQuestion question) =>
    [
        .. question.Reject.Select(static r => new PlotDemand(r.FromHz, r.ToHz, -r.LeastLossDb, Below: true)),
        new PlotDemand(question.PassFromHz, question.PassToHz, -question.MostLossDb, Below: false),
    ];

    /// <summary>From where to where the pass-band's own surroundings reach.</summary>
    internal static (double FromHz, double ToHz) Near(DesignQuestion question)
    {
        double f0 = question.CentreHz, least = Math.Max(0.03 * f0, 3 * (question.PassToHz - question.PassFromHz));
        double from = f0 - least, to = f0 + least;
        foreach (RejectDemand r in question.Reject.Where(r => Math.Abs(r.FromHz - f0) < NearFraction * f0 && r.ToHz < 1.3 * f0))
        {
            (from, to) = (Math.Min(from, r.FromHz - (0.01 * f0)), Math.Max(to, r.ToHz + (0.01 * f0)));
        }

        return (from, to);
    }

    /// <summary>Gain of a circuit in dB; null without one, or where it has no one solution.</summary>
    internal static Func<double, double>? Gain(Circuit? circuit)
    {
        if (circuit is null || circuit.Parts.Any(static p => p.HasUnknown) || CircuitSolver.TryCreate(circuit, out _) is not { } solver)
        {
            return null;
        }

        CircuitTwoPort network = new(solver);
        return hz =>
        {
            ScatteringMatrix s = default;
            return hz >= network.LowestHz && hz <= network.HighestHz && network.TryAt([hz], new Span<ScatteringMatrix>(ref s)) is null
                ? Math.Max(-200, -s.InsertionLossDb)
                : double.NaN;
        };
    }

    /// <summary>What a bar says while it is held: where, and how much.</summary>
    public static string Says(RejectDemand demand)
    {
        ArgumentNullException.ThrowIfNull(demand);
        return FormattableString.Invariant($"{Where(demand)}, {demand.LeastLossDb:0.#} dB");
    }

    private static string Words(RejectDemand r, string? name) =>
        FormattableString.Invariant($"{(name is null ? "" : name + ", ")}{Where(r)}: {r.LeastLossDb:0.#} dB at least");

    private static string Where(RejectDemand r) => r.ToHz > r.FromHz
        ? $"{MegahertzText.InWords(r.FromHz)} to {MegahertzText.InWords(r.ToHz)} MHz"
        : $"{MegahertzText.InWords(r.FromHz)} MHz";
}
