using Spurless.Circuits.Coils;
using Spurless.Files.Diagnostics;

namespace Spurless.Sites.Coils;

/// <summary>
/// Answers what a coil or resonator of given dimensions is, or what dimensions it needs. It takes microseconds: nothing to watch and
/// nothing to stop.
/// </summary>
public static class CoilService
{
    /// <summary>Answers a question.</summary>
    /// <exception cref="ArgumentException">The question holds neither or both of two that exclude each other.</exception>
    public static Outcome<CoilAnswer> Ask(CoilQuestion question) => question switch
    {
        AirCoilQuestion air => AirCoil(air),
        RingCoreQuestion ring => RingCore(ring),
        HelicalQuestion helical => new HelicalAnswer(helical, HelicalResonator.For(helical.FrequencyHz, helical.ShieldM, helical.Shape)),
        CoaxialQuestion line => new CoaxialAnswer(
            line, CoaxialResonator.For(line.FrequencyHz, line.InnerM, line.OuterM, line.EndF, line.Metal)),
        _ => throw new ArgumentException("There is no such kind of coil.", nameof(question)),
    };

    private static Outcome<CoilAnswer> AirCoil(AirCoilQuestion question)
    {
        double diameter = OneOf(question.DiameterM, question.FormerM + question.WireM, nameof(question));
        _ = OneOf(question.Turns, question.InductanceH, nameof(question));
        double turns = question.Turns ?? 0;
        if (question.InductanceH is { } wanted
            && !CoilCalculator.TryTurns(wanted, diameter, question.LengthM, question.WireM, out turns, out Refusal? refusal))
        {
            return refusal;
        }

        CoilGeometry geometry = new(turns, diameter, question.LengthM, question.WireM, question.LeadM);
        if (CoilCalculator.Refuse(geometry) is { } impossible)
        {
            return impossible;
        }

        CoilResult coil = CoilCalculator.Compute(geometry, question.FrequencyHz, question.Metal);
        return new AirCoilAnswer(
            question, coil, question.InductanceH is null ? null : Whole(question, turns, diameter, null), AtFrequency(question, diameter));
    }

    private static WoundAt? AtFrequency(AirCoilQuestion question, double diameterM) =>
        question is { InductanceH: { } wanted, FrequencyHz: { } hertz }
        && CoilCalculator.TryTurns(
            wanted, diameterM, question.LengthM, question.WireM, out double turns, out _, hertz, question.Metal)
            ? new WoundAt(turns, Whole(question, turns, diameterM, hertz))
            : null;

    private static WholeTurns Whole(AirCoilQuestion question, double turns, double diameterM, double? frequencyHz)
    {
        double number = Math.Max(1, Math.Round(turns));
        return new WholeTurns(
            number,
            CoilCalculator.LengthFor(question.InductanceH!.Value, number, diameterM, question.WireM, frequencyHz, question.Metal));
    }

    private static RingCoreAnswer RingCore(RingCoreQuestion question)
    {
        double core = question.InductancePerTurnSquaredH;
        _ = OneOf(question.Turns, question.InductanceH, nameof(question));
        double turns = question.Turns ?? Toroid.Turns(question.InductanceH!.Value, core);
        double whole = Math.Max(1, Math.Round(turns));
        return new RingCoreAnswer(question, turns, Toroid.Henries(turns, core), whole, Toroid.Henries(whole, core));
    }

    private static double OneOf(double? first, double? second, string question) => first is null == second is null
        ? throw new ArgumentException("One of two that exclude each other is to be given.", question)
        : first ?? second!.Value;
}
