using System.Globalization;
using Spurless.Circuits.Stress;
using Spurless.Reports.Text;

namespace Spurless.Reports.Bench;

/// <summary>What transmitting does to a circuit, in words.</summary>
public static class StressWords
{
    /// <summary>What to mind before trying: of everything that carries power, and of the kinds of part that the circuit has.</summary>
    public static IReadOnlyList<string> Cautions(StressResult stress)
    {
        ArgumentNullException.ThrowIfNull(stress);
        List<string> all =
        [
            "Radio-frequency voltages burn the skin deeply and are not felt in time: no power while the cover is off.",
            "Parts that dissipate watts get hot enough to burn and to melt their solder; let them cool before touching.",
        ];
        if (stress.HasResistors)
        {
            // Common practice: that ceramic was used in power resistors and under transistors, not in coils and chip capacitors.
            all.Add(
                "Beryllia: some old power resistors, transistors and insulators contain this poison: "
                    + "never file, crush or overheat them.");
        }

        all.Add(
            (stress.HasCapacitors ? "A capacitor" : "A part") + " that opens, or a load that comes off, changes every figure here: "
                + "keep power low until the reflected power has been read.");
        all.Add(
            "Whether and with what power you may transmit is for the licence, the rules where you are and whoever answers "
                + "for the site to say; what carries power is opened by people who know it.");
        return all;
    }

    /// <summary>
    /// The answer, which begins with Yes or No, or says that no part has a limit to tell it by: transmit through it or not, and which part
    /// gives first.
    /// </summary>
    public static string Sentence(StressResult stress)
    {
        ArgumentNullException.ThrowIfNull(stress);
        string power = $"{Text(stress.Request.PowerW)} W";
        if (stress.Parts.Count == 0)
        {
            return $"Yes: there is no part that {power} could harm.";
        }

        PartStress hottest = stress.Parts.MaxBy(static p => p.DissipationW)!, highest = stress.Parts.MaxBy(static p => p.PeakVoltageV)!;
        string facts =
            $"{power} leave {Text(stress.DissipatedW)} W of heat in it, {Text(hottest.DissipationW)} W of that in {hottest.Part} at "
                + $"{Text(hottest.RmsCurrentA)} A, and put {Text(highest.PeakVoltageV)} V peak across {highest.Part}";
        if (stress.GivesFirst is not { LimitPowerW: { } limit } first)
        {
            return $"That cannot be told, for no part has a limit to compare with: {facts}.";
        }

        string giver = $"{first.Part} gives first ({Limit(first)}), at about {Text(limit)} W";
        return first.Exceeded ? $"No, do not transmit through it: {facts}; {giver}." : $"Yes, it bears {power}: {facts}; {giver}.";
    }

    /// <summary>A part's limit: <c>50 V rated</c>; null where it has none.</summary>
    public static string? Limit(PartStress part)
    {
        ArgumentNullException.ThrowIfNull(part);
        return part.Limit is not { } limit
            ? null
            : $"{Text(limit.Value)} {Unit(limit.Quantity)} {(part.LimitAssumed ? "assumed" : "rated")}";
    }

    /// <summary>The part that gives first, with its limit; null where none has one.</summary>
    public static string? GivesFirst(PartStress? first) => first is null ? null : $"{first.Part} ({Limit(first)})";

    /// <summary>What was taken for want of a figure, each a sentence without a full stop.</summary>
    public static IReadOnlyList<string> Assumptions(StressResult stress)
    {
        ArgumentNullException.ThrowIfNull(stress);
        return [.. stress.Assumptions.Select(static a => $"{string.Join(", ", a.Parts)}: {Taken(a.Kind)}")];
    }

    private static string Taken(StressAssumptionKind kind) => kind switch
    {
        StressAssumptionKind.SmallCapacitors => "no rating stated, 50 V and 0.25 W taken as usual for small capacitors (common "
            + "practice; a large variable one bears more, a chip less)",
        StressAssumptionKind.SmallResistors => "no rating stated, 0.25 W taken as usual for small resistors (common practice)",
        StressAssumptionKind.SmallCoils => "no rating stated, 1 W taken as usual for small air coils (common practice)",
        StressAssumptionKind.NotJudged => "no rating stated and none usual: not judged",
        StressAssumptionKind.Lossless => "neither q nor esr stated, counted as lossless: their heat is missing",
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };

    private static string Unit(StressQuantity quantity) =>
        quantity switch { StressQuantity.PeakVoltage => "V", StressQuantity.Current => "A", _ => "W" };

    private static string Text(double value) => Math.Abs(value) switch
    {
        >= 100 => value.ToString("0", CultureInfo.InvariantCulture),

        // Three figures too, and no exponent in a sentence.
        > 0 and < 1e-4 and var small => FixedText.Of(
            Math.Round(value, Math.Min(15, 2 - (int)Math.Floor(Math.Log10(small)))), "0.0##############"),
        _ => FixedText.Of(value, "G3"),
    };
}
