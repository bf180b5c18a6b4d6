using System.Globalization;
using Spurless.Circuits.Parts;
using Spurless.Design.Designing;
using Spurless.Design.Optimising;
using Spurless.Design.Questions;
using Spurless.Design.Tuning;
using Spurless.Radio.Quantities;
using Spurless.Sites.Designs;

namespace Spurless.Reports.Designs;

/// <summary>What is said of a design.</summary>
public static class DesignWords
{
    /// <summary>The answer.</summary>
    public static string Answer(DesignReading reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        string early = reading.Answer.IsComplete ? "" : " It was stopped early: this is the best so far.";
        if (reading.Files.Count == 0)
        {
            return "Nothing was found." + early;
        }

        DesignCandidate best = reading.Files[0].Candidate;
        int meets = reading.Files.Count(static f => f.Candidate.Meets);
        if (meets == 0)
        {
            int tried = reading.Answer.FamiliesTried.Count;
            return $"No circuit of the {(tried == 1 ? "one family" : $"{Count(tried)} families")} tried meets it. The "
                + $"nearest, {best.Family}, {Short(best)}.{Limits(reading)}{early}";
        }

        string tuned = best.Tuned is { } t ? $", {Percent(t.Yield)} of builds once tuned" : "";
        string power = reading.Brief.Question.TransmitW is { } w
            ? Invariant($" It bears {w:0.##} W by computation, with parts rated as stated.")
            : " Do not transmit through it.";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{Meeting(meets, reading.Files.Count)} what is asked. "
                + $"Best: {best.Family}, {best.WorstPassLossDb:0.0} dB of loss, "
                    + $"{Down(best.WorstMarginDb)} dB to spare{tuned}.{power}{early}");
    }

    /// <summary>A candidate in a phrase: what it has to spare, or what it lacks most.</summary>
    public static string Short(DesignCandidate candidate)
    {
        ArgumentNullException.ThrowIfNull(candidate);
        DemandFinding worst = candidate.Findings.MinBy(static f => f.MarginDb * Weight(f.Kind))!;
        if (candidate.Meets)
        {
            return Invariant($"meets it, {Down(candidate.WorstMarginDb)} dB to spare");
        }

        return worst.Met ? "meets the mask but not the power" : worst.Kind switch
        {
            DemandKind.PassLoss => Invariant($"loses {worst.AchievedDb:0.00} dB at {Mhz(worst.WorstHz)}, {-worst.MarginDb:0.00} too much"),
            DemandKind.ReturnLoss =>
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"returns too much at {Mhz(worst.WorstHz)}: {worst.AchievedDb:0.0} dB of return "
                        + $"loss where {worst.NeededDb:0.#} dB are asked"),
            _ => Invariant($"takes {worst.AchievedDb:0.0} dB at {Mhz(worst.WorstHz)} where {worst.NeededDb:0.#} dB are asked"),
        };
    }

    /// <summary>What limits the nearest misses; empty where nothing can be told.</summary>
    public static string Limits(DesignReading reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        List<string> all = [];
        if (reading.Files.Select(static f => f.Candidate).FirstOrDefault(static c => c.QualityWouldMeet is not null) is { } miss
            && reading.Brief.Question.Parts.InductorQ is { } have)
        {
            all.Add(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $" {Capital(miss.Family)} would need coils of unloaded Q {miss.QualityWouldMeet:0} where they have "
                        + $"{have.Q:0}, by the optimiser and before rounding to the series."));
        }

        if (reading.Answer.Bound is { } bound && bound.NeededQ > bound.HaveQ)
        {
            string kind = bound.RippleDb is { } r ? Invariant($"Chebyshev, {r:0.##} dB of ripple") : "Butterworth";
            all.Add(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $" By Cohn's estimate a band-pass filter needs at least resonators of unloaded Q {bound.NeededQ:0} "
                        + $"({bound.Order} of them, {kind}, {MegahertzText.InWords(bound.WidthHz)} MHz wide) where coil "
                            + $"and capacitor together give {bound.HaveQ:0}."));
        }

        return all.Count > 0 ? string.Concat(all) : " None of these families came nearer; that is no proof that no filter does.";
    }

    /// <summary>What was taken for want of a figure.</summary>
    public static IEnumerable<string> Assumed(DesignReading reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        DesignQuestion q = reading.Brief.Question;
        Circuit? any = reading.Files is [{ } first, ..] ? first.Candidate.Circuit : null;
        double c = any?.Parts.OfType<Capacitor>().FirstOrDefault(static p => p.Tolerance is not null)?.Tolerance?.Fraction ?? 0.05;
        yield return string.Create(
            CultureInfo.InvariantCulture,
            $"capacitors within {100 * c:0.##} % "
                + $"{(q.CapacitorTolerance is null && q.Parts.Series is { } s ? $"(of series E{s}, IEC 60063)" : "")}, "
                    + $"coils as wound within {100 * q.InductorTolerance:0.#} % (common practice), each evenly and by itself");
        if (q.Parts.CapacitorQ is not null)
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"every capacitor with {q.CapacitorLeadH * 1e9:0.0#} nH in series (common practice for a chip on "
                    + $"short pads); coils with the self-capacitance of their winding");
        }

        if (q.Parts.InductorQ is null || q.Parts.CapacitorQ is null)
        {
            yield return $"{(q.Parts.InductorQ is null ? "coils" : "")}"
                + $"{(q.Parts.InductorQ is null && q.Parts.CapacitorQ is null ? " and " : "")}"
                + $"{(q.Parts.CapacitorQ is null ? "capacitors" : "")} taken as lossless, since no Q is stated: real ones lose";
        }

        if (reading.Brief.Needs is not null)
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"coils of unloaded Q {q.Parts.InductorQ!.Q:0} and capacitors of {q.Parts.CapacitorQ!.Q:0} at "
                    + $"{Mhz(q.Parts.InductorQ.AtHz)} (common practice); measured levels are those of the site file");
        }

        if (reading.Files.Any(static f => f.Candidate.Coils.Any(static c => c.Tap is not null)))
        {
            yield return "both parts of a tapped coil drawn each by itself, though one winding holds both; its tap within a fifth "
                + "of a turn or so, for the formulas know whole turns better (common practice)";
        }

        yield return "coupled only as drawn: coils that see each other couple besides";
    }

    /// <summary>A step of the alignment in sentences.</summary>
    public static string Step(TuningStep step)
    {
        ArgumentNullException.ThrowIfNull(step);
        string hold = step.ShortNode is { } node
            ? $"Short node {node} to ground. "
            : step.OpenPart is { } part ? $"Lift one end of {part}. "
            : "Nothing shorted. ";
        string adjust = step.Adjust.Count == 1
            ? step.Adjust[0]
            : $"{step.Adjust[0]}, then {string.Join(", ", step.Adjust.Skip(1))} a little";
        return step.Reading switch
        {
            TuningReading.ReflectionDelay =>
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{hold}Sweep S11, read its group delay. Turn {adjust} until the delay is even about "
                        + $"{Mhz(step.AtHz)}; its {(step.Expected < 0 ? "bottom" : "top")} then stands at {step.Expected * 1e9:0} ns."),
            TuningReading.Notch =>
                Invariant($"{hold}Sweep S21. Turn {adjust} until the notch stands at {Mhz(step.AtHz)}, {step.Expected:0} dB deep."),
            _ =>
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{hold}Sweep S11. Turn {adjust} for the best return loss across the pass-band; "
                        + $"as drawn it is {step.Expected:0.0} dB at {Mhz(step.AtHz)}."),
        };
    }

    /// <summary>What layout decides.</summary>
    public static IEnumerable<string> Layout(DesignCandidate candidate)
    {
        ArgumentNullException.ThrowIfNull(candidate);
        if (candidate.Strays.Count > 0)
        {
            IEnumerable<string> pairs = candidate.Strays.Select(static s => string.Create(
                CultureInfo.InvariantCulture,
                $"{s.First} and {s.Second} at {s.DistanceM * 1e3:0} mm by {s.Coefficient:0.0000} ({s.EndToEnd:0.0000})"));
            yield return $"side by side (end to end on one axis) couple {string.Join(", ", pairs)}: side by side as dipoles, falling "
                + "with the third power of the distance; at right angles, the axis of one through the middle of the other, they do not";
        }

        foreach (Design.Winding.WoundCoil coil in candidate.Coils.Where(static c => c.Tap is not null))
        {
            yield return $"{coil.Part}: solder the tap where it is stated, and move it by tenths of a turn if the sweep's return "
                + "loss wants it (common practice)";
        }

        foreach (Coupling m in candidate.Circuit.Parts.OfType<Coupling>()
            .Where(m => DesignedCircuitFile.BelowTap(m.Name, candidate) is null))
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"{m.Name}: {m.First} and {m.Second} couple by {m.Coefficient.Require():0.0000}: "
                    + $"set their distance by the sweep, begin wide apart");
        }

        if (candidate.Findings.Any(static f => f.Kind == DemandKind.Rejection && f.AchievedDb > Design.Layout.LayoutHints.UnscreenedDb))
        {
            yield return "beyond 70 dB what leaks round an unscreened circuit decides (common practice)";
        }

        yield return "a closed metal box, a wall between tanks with a hole for the coupling part, one ground plane, "
            + "input and output connectors at opposite ends (common practice)";
    }

    /// <summary>Cautions.</summary>
    public static IReadOnlyList<string> Cautions(DesignReading reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        return
        [
            reading.Brief.Question.TransmitW is null
                ? "Do not transmit through it: it was designed to receive, and its parts flash over or burn at a transmitter's power."
                : "Bring up the power in steps, a tenth first, and read the reflected power: a part that is off its value bears less.",
            "Radio-frequency voltages burn the skin deeply: no power while the cover is off.",
            "Whether and with what power you may transmit is for the licence, "
                + "the rules where you are and whoever answers for the site to say.",
            "Figures are computed: sweep what was built before it goes on the mast.",
        ];
    }

    /// <summary>A share as per cent, never 100 unless all.</summary>
    public static string Percent(double share) =>
        Invariant($"{(share is > 0.995 and < 1 ? 99 : share is > 0 and < 0.005 ? 1 : Math.Round(100 * share)):0} %");

    internal static string Mhz(double hertz) => MegahertzText.InWords(hertz) + " MHz";

    internal static double Weight(DemandKind kind) => kind == DemandKind.PassLoss ? 4 : 1;

    // Rounded down: what is to spare is never more than said.
    internal static string Down(double db) => (Math.Floor(db * 100) / 100).ToString("0.00", CultureInfo.InvariantCulture);

    private static string Meeting(int meets, int all) => all == 1
        ? "The one circuit found meets"
        : $"{Capital(Count(meets))} of {Count(all)} circuits {(meets == 1 ? "meets" : "meet")}";

    private static string Count(int n) => n switch
    {
        1 => "one",
        2 => "two",
        3 => "three",
        4 => "four",
        5 => "five",
        6 => "six",
        7 => "seven",
        8 => "eight",
        _ => n.ToString(CultureInfo.InvariantCulture),
    };

    /// <summary>What is asked, before anything is designed.</summary>
    public static string Asked(DesignBrief brief)
    {
        ArgumentNullException.ThrowIfNull(brief);
        DesignQuestion q = brief.Question;
        string pass = string.Create(
            CultureInfo.InvariantCulture,
            $"{MegahertzText.InWords(q.PassFromHz)} to {MegahertzText.InWords(q.PassToHz)} MHz must pass with {q.MostLossDb:0.##} dB "
                + $"of loss at most");
        if (q.Reject.Count == 0)
        {
            return $"{pass}, and nothing is to be kept out yet: draw it, or type it below.";
        }

        RejectDemand most = q.Reject.MaxBy(static r => r.LeastLossDb)!;
        string kept = string.Create(
            CultureInfo.InvariantCulture,
            $"{(q.Reject.Count == 1 ? "one frequency is" : $"{Count(q.Reject.Count)} frequencies are")} to be kept out, the most at "
                + $"{Mhz(most.FromHz)}, by {most.LeastLossDb:0.#} dB");
        return $"{pass}; {kept}. Nothing is designed yet.";
    }

    /// <summary>A text with a capital at its beginning.</summary>
    public static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
