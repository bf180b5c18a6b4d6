using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Design.Questions;
using Spurless.Design.Tuning;
using Spurless.Files.Diagnostics;
using Spurless.Fit;

namespace Spurless.Sites.Designs;

/// <summary>A built filter's sweep, as a question what to turn.</summary>
/// <param name="Circuit">The circuit as drawn; parts with a tolerance may be off by it.</param>
/// <param name="Sweep">The sweep of what was built.</param>
/// <param name="Trimmers">Names of the parts that can be turned.</param>
/// <param name="Question">The requirement.</param>
public sealed record TuneQuestion(Circuit Circuit, FitSweep Sweep, IReadOnlyList<string> Trimmers, DesignQuestion Question);

/// <summary>What to turn.</summary>
/// <param name="Fit">The fit of the circuit to the sweep.</param>
/// <param name="Advice">What to turn, from the fitted values.</param>
/// <param name="Turned">The circuit as fitted, with all of that done to it.</param>
public sealed record TuneAnswer(FitResult Fit, TuningAdvice Advice, Circuit Turned);

/// <summary>Fits a circuit to the sweep of what was built of it, and says what to turn.</summary>
public static class TuneService
{
    /// <summary>How far a part is thought off its drawing beforehand, one sigma, where it states no tolerance.</summary>
    private const double UsualSpread = 0.05;

    /// <summary>How far a part that can be turned may stand from its drawing, one sigma.</summary>
    private const double TurnedSpread = 0.15;

    /// <summary>The advice; null with the reason where there is none.</summary>
    /// <param name="question">Circuit, sweep, trimmers, requirement.</param>
    /// <param name="refusal">Why not; null where there is advice.</param>
    /// <param name="progress">Hears how far the fit has come.</param>
    /// <param name="cancellation">Ends the fit early with the best so far.</param>
    public static TuneAnswer? TryRun(
        TuneQuestion question, out Refusal? refusal, IProgress<FitProgress>? progress = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        Circuit estimated = question.Circuit with
        {
            Parts = [.. question.Circuit.Parts.Select(p => Estimate(p, question.Trimmers.Contains(p.Name)))],
        };
        FitResult? fit = CircuitFit.TryRun(
            estimated, question.Sweep, new FitOptions { Starts = 4, Advise = false }, out refusal, progress, cancellation);
        if (fit is null)
        {
            return null;
        }

        if (fit.ExplainsNothing)
        {
            refusal = new Refusal(
                "the circuit does not explain this sweep, so nothing can be said of its parts",
                "look whether it is this filter's sweep, for a cold joint and for a part of another value");
            return null;
        }

        if (CircuitSolver.TryCreate(fit.Fitted, out _) is not { } solver
            || TuneAdvisor.Advise(solver, question.Trimmers, question.Question) is not { } advice)
        {
            refusal = new Refusal("the circuit has no solution at the requirement's frequencies", "give its parts a loss");
            return null;
        }

        return new(fit, advice, TuneAdvisor.Turned(fit.Fitted, advice));
    }

    // Every value an estimate about its drawing; Q is taken as drawn.
    private static Part Estimate(Part part, bool turned)
    {
        if (part is Line or Stub or Transformer or TwoPortBlock && !turned)
        {
            return part;
        }

        double spread = part.Tolerance is { Fraction: > 0 } t ? Math.Max(0.6 * t.Fraction, 0.005) : UsualSpread;
        return part with { About = turned ? Math.Max(TurnedSpread, spread) : spread };
    }
}
