using System.Globalization;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Text;
using Spurless.Sites.Checking;
using Spurless.Sites.Sources;

namespace Spurless.Reports.Checks;

/// <summary>
/// Writes what a check found: a line, or JSON of the format <c>spurless-check/1</c>. The findings themselves go to standard error.
/// </summary>
public static class CheckWriter
{
    /// <summary>Writes the outcome in a sentence.</summary>
    /// <param name="result">The outcome.</param>
    /// <param name="to">Where to.</param>
    public static void WriteText(CheckResult result, TextWriter to)
    {
        string outcome = (result.Errors, result.Warnings) switch
        {
            (0, 0) => "nothing wrong",
            (0, _) => Count(result.Warnings, "warning"),
            (_, 0) => Count(result.Errors, "error"),
            _ => $"{Count(result.Errors, "error")}, {Count(result.Warnings, "warning")}",
        };
        string holds = result.Holds.Length == 0 ? "" : $" ({result.Holds})";
        to.Write(TextFlow.Printable($"{result.File}: {FileKinds.Name(result.Kind)}{holds}: {outcome}"));
        to.Write('\n');
    }

    /// <summary>Writes the outcome as JSON, in UTF-8 with a final line feed.</summary>
    /// <param name="result">The outcome.</param>
    /// <param name="to">Where to.</param>
    public static void WriteJson(CheckResult result, Stream to)
    {
        JsonText.Write(to, json =>
        {
            json.WriteString("format", "spurless-check/1");
            json.WriteString("file", result.File);
            json.WriteString("kind", FileKinds.Name(result.Kind));
            json.WriteString("holds", result.Holds);
            json.WriteNumber("errors", result.Errors);
            json.WriteNumber("warnings", result.Warnings);
            JsonText.Objects(json, "findings", result.Findings, finding =>
            {
                json.WriteString("severity", finding.Severity == Severity.Error ? "error" : "warning");
                json.WriteString("file", finding.File);
                json.WriteNumber("line", finding.Line);
                json.WriteNumber("column", finding.Column);
                json.WriteString("what", finding.What);
                json.WriteString("remedy", finding.Remedy);
            });
        });
    }

    private static string Count(int count, string of) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {of}{(count == 1 ? "" : "s")}");
}
