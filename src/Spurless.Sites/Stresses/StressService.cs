using Spurless.Circuits.Solving;
using Spurless.Circuits.Stress;

namespace Spurless.Sites.Stresses;

/// <summary>Answers whether a circuit bears a transmitter's power. It takes milliseconds: nothing to watch and nothing to stop.</summary>
public static class StressService
{
    /// <summary>Answers a question.</summary>
    public static Outcome<StressAnswer> Ask(StressQuestion question)
    {
        ArgumentNullException.ThrowIfNull(question);
        if (CircuitSolver.TryCreate(question.Circuit, out IReadOnlyList<CircuitFault> faults) is not { } solver)
        {
            return Outcome.Of<StressAnswer>(faults);
        }

        StressResult? result = StressAnalysis.TryRun(
            solver, new StressRequest(question.PowerW, question.FrequencyHz, question.Load), out CircuitFault? fault);
        return result is null ? fault! : new StressAnswer(question, new CircuitTwoPort(solver), result);
    }
}
