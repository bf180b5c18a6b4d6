using Spurless.Circuits.Parts;
using Spurless.Circuits.Requirements;
using Spurless.Circuits.Sensitivity;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Tolerance;
using Spurless.Files.Diagnostics;

namespace Spurless.Sites.Tolerances;

/// <summary>Answers what becomes of a circuit when it is built.</summary>
public static class ToleranceService
{
    // Four bytes each for S21 and S11 of every specimen and point.
    private const long MostValues = 60_000_000;

    /// <summary>
    /// Answers a question. A refusal's subject is the requirement, or the samples where they are more than fit in memory.
    /// </summary>
    /// <param name="question">The question.</param>
    /// <param name="progress">Told the share of the specimens drawn, or null.</param>
    /// <param name="cancellationToken">Stops the work.</param>
    public static Outcome<ToleranceAnswer> Ask(
        ToleranceQuestion question, IProgress<double>? progress = null, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        Circuit circuit = question.Others is { } others ? ToleranceDefault.Apply(question.Circuit, others.Tolerance) : question.Circuit;
        if (CircuitSolver.TryCreate(circuit, out IReadOnlyList<CircuitFault> faults) is not { } solver)
        {
            return Outcome.Of<ToleranceAnswer>(faults);
        }

        if (question.Requirement is { } required && RequirementMask.Refuse(required, circuit.ImpedanceOhm) is { } mismatch)
        {
            return mismatch with { Subject = nameof(ToleranceQuestion.Requirement) };
        }

        CircuitTwoPort network = new(solver);
        ToleranceRequest request = Request(question, network, circuit.Name);
        if (TooMany(request) is { } refusal)
        {
            return refusal;
        }

        ToleranceResult? result = ToleranceAnalysis.TryRun(solver, request, out CircuitFault? fault, progress, cancellationToken);
        return result is null ? fault! : new ToleranceAnswer
        {
            Question = question,
            Circuit = circuit,
            Network = network,
            Result = result,
            Tuning = question.Advise ? TuningStudy.TryRun(solver, result, cancellationToken) : null,
            Sensitivity = question.Advise && result.Main is { } main ? SensitivityAnalysis.TryRun(solver, [main.FrequencyHz], out _) : null,
            Mask = MaskCheck.Run(network, request.Mask),
            OtherParts = [.. question.Circuit.Parts.Zip(circuit.Parts)
                .Where(static p => p.First.Tolerance is null && p.Second.Tolerance is not null).Select(static p => p.First.Name)],
        };
    }

    private static ToleranceRequest Request(ToleranceQuestion question, CircuitTwoPort network, string name)
    {
        MaskLine[] lines = question.Requirement is { } requirement ? [.. RequirementMask.Lines(requirement)] : [];
        IReadOnlyList<double>? asked = question.Frequencies?.Hertz;
        return new ToleranceRequest
        {
            Samples = question.Samples,
            Seed = question.Seed,
            FrequenciesHz = question.ForPlots ? ToleranceGrid.ForPlots(network, name, lines, asked ?? [])
                : asked ?? ToleranceGrid.ForTable(network, lines),
            Mask = lines,
            LowestC = question.LowestC,
            HighestC = question.HighestC,
        };
    }

    private static Refusal? TooMany(ToleranceRequest request)
    {
        long points = request.FrequenciesHz.Count + request.Mask.Sum(static m => (long)m.Frequencies().Count());
        return points * request.Samples <= MostValues ? null : new Refusal(
            FormattableString.Invariant($"{request.Samples} samples at {points} frequencies are more than fit in memory"),
            FormattableString.Invariant(
                $"ask for {Math.Max(ToleranceQuestion.LeastSamples, MostValues / points)} samples, or for fewer points"))
        {
            Subject = nameof(ToleranceQuestion.Samples),
        };
    }
}
