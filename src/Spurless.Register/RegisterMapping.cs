using Spurless.Files.Diagnostics;
using Spurless.Register.Layouts.Mapped;

namespace Spurless.Register;

/// <summary>Mapping files by themselves, without a table.</summary>
public static class RegisterMapping
{
    /// <summary>Checks one.</summary>
    /// <param name="bytes">Its bytes.</param>
    /// <param name="file">Its name as the user gave it.</param>
    /// <param name="diagnostics">Takes what is wrong.</param>
    /// <returns>How many columns it names; null where it has errors.</returns>
    public static int? Check(ReadOnlySpan<byte> bytes, string file, DiagnosticBag diagnostics) =>
        ColumnMapping.Read(bytes, file, diagnostics)?.Columns.Count;
}
