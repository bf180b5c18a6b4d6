using System.Globalization;
using Spurless.Circuits.Requirements;
using Spurless.Circuits.Sensitivity;
using Spurless.Circuits.Tolerance;
using Spurless.Radio.Quantities;
using Spurless.Reports.Text;
using Spurless.Sites.Tolerances;

namespace Spurless.Reports.Bench;

/// <summary>A tolerance run as it is told: the result, the circuit as drawn against the mask, and what was assumed.</summary>
public sealed record ToleranceReading
{
    /// <summary>The circuit's name.</summary>
    public required string Name { get; init; }

    /// <summary>The result.</summary>
    public required ToleranceResult Result { get; init; }

    /// <summary>The requirement's name; null without one.</summary>
    public string? Requirement { get; init; }

    /// <summary>How the circuit with its values as drawn stands to each demand of the mask; empty without one.</summary>
    public IReadOnlyList<MaskFinding> Mask { get; init; } = [];

    /// <summary>What making one part tunable would do; null where it was not tried.</summary>
    public TuningFinding? Tuning { get; init; }

    /// <summary>
    /// What one per cent of each number of each part moves, at the frequency that matters most; null where it was not asked.
    /// </summary>
    public SensitivityResult? Sensitivity { get; init; }

    /// <summary>The answer: what becomes of the circuit, and which part to make tunable.</summary>
    public string Sentence => Becomes(Result) + (Tuning switch
    {
        null => "",
        { Best: { } best } t =>
            string.Create(
                CultureInfo.InvariantCulture,
                $" If one part is made tunable, let it be {best.Part}: "
                    + $"then half lose {best.LossDb.P50:0.0} dB or less in place of {t.Untuned.P50:0.0} dB."),
        _ => " Making a single part tunable betters it by less than 0.1 dB.",
    });

    /// <summary>What was taken for want of a figure, each a sentence without a full stop.</summary>
    public IReadOnlyList<string> Assumptions { get; init; } = [];

    /// <summary>An answer as it is told.</summary>
    public static ToleranceReading Of(ToleranceAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return new ToleranceReading
        {
            Name = answer.Question.Circuit.Name,
            Result = answer.Result,
            Tuning = answer.Tuning,
            Sensitivity = answer.Sensitivity,
            Requirement = answer.Question.Requirement?.Name,
            Mask = answer.Mask,
            Assumptions = Assumed(answer.Result, answer.Question.Others?.Text, answer.OtherParts),
        };
    }

    /// <summary>What becomes of the circuit when it is built, in a sentence or two.</summary>
    public static string Becomes(ToleranceResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        if (result.Ranking.Count == 0)
        {
            return "No part has a tolerance, so nothing spreads: write tolerance: 5 % to the parts, or give one for all.";
        }

        string most = result.MostWorthTuning is { } part
            ? string.Create(CultureInfo.InvariantCulture, $" {part} does most of it ({result.Ranking[0].Share * 100:0} %).")
            : "";
        string loss = result.Main is { } b
            ? string.Create(
                CultureInfo.InvariantCulture,
                $"half of those built lose more than {Lost(b.S21Db.P50)} dB at {MegahertzText.InWords(b.FrequencyHz)} MHz and one in "
                    + $"twenty more than {Lost(b.S21Db.P5)} dB ({Lost(b.NominalS21Db)} dB as drawn)")
            : "";
        if (result is not { Yield: { } yield, YieldInterval: { } interval })
        {
            return char.ToUpperInvariant(loss[0]) + loss[1..] + "." + most;
        }

        string keep = string.Create(
            CultureInfo.InvariantCulture,
            $"{yield * 100:0.#} % of those built keep the whole requirement "
                + $"({interval.Low * 100:0.##} to {interval.High * 100:0.##} %)");
        return keep + (loss.Length > 0 ? $"; {loss}." : ".") + most;
    }

    private static string Lost(double gainDb) => FixedText.Of(-gainDb, "0.0#");

    /// <summary>What tolerances are in force, beside those that the parts state.</summary>
    /// <param name="result">The result.</param>
    /// <param name="forOthers">The tolerance given for all parts that state none, as it was written; null for none.</param>
    /// <param name="others">The parts that got it.</param>
    public static IReadOnlyList<string> Assumed(ToleranceResult result, string? forOthers = null, IReadOnlyList<string>? others = null)
    {
        ArgumentNullException.ThrowIfNull(result);
        List<string> all = [];
        if (forOthers is not null && others is { Count: > 0 })
        {
            all.Add($"{string.Join(", ", others)}: {forOthers}, as asked for parts that state no tolerance");
        }

        if (result.HeldParts.Count > 0)
        {
            all.Add($"{string.Join(", ", result.HeldParts)}: no tolerance stated, held at the value drawn");
        }

        all.Add("every value spreads by itself: parts of one reel are more alike than that, and what is wound by one hand too");
        all.Add("nothing is tuned after building; Q follows the value");
        return all;
    }

    /// <summary>
    /// How far the circuit as drawn misses the mask, worst first, each in words without a full stop; empty where it keeps it.
    /// </summary>
    public IEnumerable<string> Shortfalls => Mask
        .Where(static f => !f.Met)
        .OrderBy(static f => f.MarginDb)
        .Select(static f => f.Demand switch
    {
        MaskDemand.PassLoss =>
            string.Create(
                CultureInfo.InvariantCulture,
                $"as drawn it loses {f.AchievedDb:0.0} dB at {MegahertzText.InWords(f.WorstHz)} MHz, "
                    + $"{-f.MarginDb:0.0} dB more than allowed"),
        MaskDemand.ReturnLoss =>
            string.Create(
                CultureInfo.InvariantCulture,
                $"as drawn its return loss is {f.AchievedDb:0.0} dB at {MegahertzText.InWords(f.WorstHz)} MHz, "
                    + $"{-f.MarginDb:0.0} dB short"),
        _ =>
            string.Create(
                CultureInfo.InvariantCulture,
                $"as drawn it takes {f.AchievedDb:0.0} dB at {MegahertzText.InWords(f.WorstHz)} MHz, {-f.MarginDb:0.0} dB short"),
    });

    /// <summary>A demand in words: <c>most insertion loss, 144.9 to 145.2 MHz</c>.</summary>
    public static string Demand(MaskFinding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        MaskLine line = finding.Line;
        string where = line.ToHz > line.FromHz
            ? FormattableString.Invariant($"{MegahertzText.InWords(line.FromHz)} to {MegahertzText.InWords(line.ToHz)} MHz")
            : MegahertzText.InWords(line.FromHz) + " MHz";
        string what = finding.Demand == MaskDemand.ReturnLoss ? "return loss" : "insertion loss";
        string bound = finding.Demand == MaskDemand.PassLoss ? "most" : "least";
        return $"{bound} {what}, {where}";
    }

    /// <summary>A quantity of a part in words, and its key in JSON with the unit.</summary>
    public static (string Words, string Key) Quantity(PartQuantity quantity) => quantity switch
    {
        PartQuantity.ResistanceOhm => ("resistance", "resistance_ohm"),
        PartQuantity.InductanceH => ("inductance", "inductance_h"),
        PartQuantity.CapacitanceF => ("capacitance", "capacitance_f"),
        PartQuantity.Q => ("Q", "q"),
        PartQuantity.Coupling => ("coupling", "coupling"),
        PartQuantity.LengthM => ("length", "length_m"),
        PartQuantity.SeriesResistanceOhm => ("series resistance", "esr_ohm"),
        PartQuantity.SeriesInductanceH => ("series inductance", "esl_h"),
        PartQuantity.SelfCapacitanceF => ("self-capacitance", "self_capacitance_f"),
        PartQuantity.LineImpedanceOhm => ("line impedance", "impedance_ohm"),
        PartQuantity.Velocity => ("velocity", "velocity"),
        PartQuantity.TurnsRatio => ("turns ratio", "turns_ratio"),
        PartQuantity.Turns => ("turns", "turns"),
        PartQuantity.DiameterM => ("diameter", "diameter_m"),
        PartQuantity.WindingLengthM => ("length of the winding", "winding_length_m"),
        PartQuantity.WireM => ("wire", "wire_m"),
        PartQuantity.LeadM => ("leads", "leads_m"),
        _ => throw new ArgumentOutOfRangeException(nameof(quantity)),
    };
}
