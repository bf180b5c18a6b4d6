using System.Globalization;
using Spurless.Circuits.Relays;
using Spurless.Files;
using Spurless.Files.Diagnostics;

namespace Spurless.Sites.Documents.Bypasses;

/// <summary>What can be checked only when the whole document is read. Works on a document that has errors.</summary>
internal static class BypassChecks
{
    public static void Run(BypassDocument document, ISiteFiles files, DiagnosticBag diagnostics)
    {
        Voltages(document, diagnostics);
        Coil(document, diagnostics);
        foreach (FileReference file in ((FileReference?[])[document.Filter, document.Site]).OfType<FileReference>())
        {
            if (!files.Exists(file.Path))
            {
                diagnostics.Error(
                    file.NamedIn, file.At.Line, file.At.Column, $"there is no file '{Quote.Short(file.Path)}'",
                    "write a path relative to this file, with '/' between folders");
            }
        }
    }

    private static void Voltages(BypassDocument document, DiagnosticBag diagnostics)
    {
        RelayCircuit circuit = document.Circuit;
        if (circuit.SupplyV <= 0)
        {
            return;
        }

        if (circuit.SaturationV >= circuit.SupplyV)
        {
            document.Source.Error(
                diagnostics, "driver.saturation", $"{Volts(circuit.SaturationV)} of saturation leave nothing of a supply of "
                    + $"{Volts(circuit.SupplyV)}", "write what is left across a stage that is fully on, such as 0.2 V");
            return;
        }

        for (int i = 0; i < circuit.Stages.Length; i++)
        {
            double room = i == 0 ? circuit.SupplyV : circuit.SupplyV - circuit.SaturationV;
            if (circuit.Stages[i].BaseEmitterV >= room)
            {
                document.Source.Error(
                    diagnostics, string.Create(CultureInfo.InvariantCulture, $"driver.stages[{i}].vbe"),
                    $"{Volts(circuit.Stages[i].BaseEmitterV)} from base to emitter cannot come from a supply of {Volts(circuit.SupplyV)}",
                    "write the voltage at which it conducts, such as 0.65 V");
            }
        }
    }

    private static void Coil(BypassDocument document, DiagnosticBag diagnostics)
    {
        RelayCoil coil = document.Circuit.Coil;
        if (coil is { ReleasesV: > 0, OperatesV: > 0 } && coil.ReleasesV >= coil.OperatesV)
        {
            document.Source.Error(
                diagnostics, "relay.releases_at",
                $"it would let go at {Volts(coil.ReleasesV)}, where it has not pulled yet: operates_at is {Volts(coil.OperatesV)}",
                "write the voltage under which it lets go, lower than operates_at, such as 1.2 V");
        }
    }

    private static string Volts(double value) => string.Create(CultureInfo.InvariantCulture, $"{value:0.###} V");
}
