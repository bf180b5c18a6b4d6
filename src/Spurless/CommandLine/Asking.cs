using Spurless.Circuits.Solving;
using Spurless.Files.Diagnostics;
using Spurless.Sites;
using Spurless.Sites.Sources;

namespace Spurless.CommandLine;

/// <summary>Tells why a service has no answer, at the place in a file where it belongs.</summary>
internal static class Asking
{
    /// <summary>Adds to the findings what keeps a service from answering.</summary>
    /// <param name="outcome">What the service said.</param>
    /// <param name="findings">Takes the findings.</param>
    /// <param name="circuit">The circuit that was asked about: faults are told at its parts; null for none.</param>
    /// <param name="file">The file that a refusal is about; null for the circuit's.</param>
    /// <returns>The answer; null where there is none.</returns>
    public static TAnswer? Told<TAnswer>(this Outcome<TAnswer> outcome, DiagnosticBag findings, CircuitFile? circuit, string? file = null)
        where TAnswer : class
    {
        string about = file ?? circuit?.Source.Path ?? "";
        if (circuit is not null)
        {
            circuit.Report(outcome.Faults, findings);
        }
        else
        {
            foreach (CircuitFault fault in outcome.Faults)
            {
                findings.Error(about, 0, 0, fault.What, fault.Remedy);
            }
        }

        if (outcome.Refusal is { } refusal)
        {
            findings.Error(about, 0, 0, refusal.What, refusal.Remedy);
        }

        return outcome.Answer;
    }
}
