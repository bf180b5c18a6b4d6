using System.Text.Json;
using CsCheck;
using Spurless.Files.Diagnostics;
using Spurless.Reports.Checks;
using Spurless.Reports.Tests.Text;
using Spurless.Sites.Checking;
using Spurless.Sites.Sources;

namespace Spurless.Reports.Tests.Checks;

/// <summary>What a check of a file says of it.</summary>
public sealed class CheckWriterTests
{
    [Theory]
    [InlineData(0, 0, "a.site.yaml: site file (2 receivers): nothing wrong\n")]
    [InlineData(1, 0, "a.site.yaml: site file (2 receivers): 1 error\n")]
    [InlineData(0, 1, "a.site.yaml: site file (2 receivers): 1 warning\n")]
    [InlineData(3, 2, "a.site.yaml: site file (2 receivers): 3 errors, 2 warnings\n")]
    [InlineData(0, 12, "a.site.yaml: site file (2 receivers): 12 warnings\n")]
    public void WriteText_is_a_line_with_both_counts(int errors, int warnings, string said)
    {
        using StringWriter text = new();
        CheckWriter.WriteText(Result("a.site.yaml", errors, warnings), text);
        Assert.Equal(said, text.ToString());
    }

    [Fact]
    public void WriteText_of_a_file_whose_name_steers_the_terminal_prints_it_plainly()
    {
        using StringWriter text = new();
        CheckWriter.WriteText(Result("a\u001b[2J\n.site.yaml", 0, 0), text);
        WrittenText.Sound(text.ToString());
        Assert.Single(text.ToString(), static c => c == '\n');
    }

    [Fact]
    public void WriteJson_holds_every_finding_with_its_place() => Gen.Select(Gen.Int[0, 4], Gen.Int[0, 4], Gen.String).Sample(
        static (errors, warnings, name) =>
        {
            CheckResult result = Result(name, errors, warnings);
            using MemoryStream stream = new();
            CheckWriter.WriteJson(result, stream);
            JsonElement root = JsonDocument.Parse(stream.ToArray()).RootElement;
            Assert.Equal("spurless-check/1", root.GetProperty("format").GetString());
            Assert.Equal(errors, root.GetProperty("errors").GetInt32());
            Assert.Equal(warnings, root.GetProperty("warnings").GetInt32());
            JsonElement[] findings = [.. root.GetProperty("findings").EnumerateArray()];
            Assert.Equal(errors, findings.Count(static f => f.GetProperty("severity").GetString() == "error"));
            foreach ((Diagnostic finding, JsonElement json) in result.Findings.Zip(findings))
            {
                Assert.Equal(
                    (finding.Line, finding.Column, finding.What, finding.Remedy),
                    (json.GetProperty("line").GetInt32(), json.GetProperty("column").GetInt32(), json.GetProperty("what").GetString(),
                        json.GetProperty("remedy").GetString()));
            }
        });

    private static CheckResult Result(string file, int errors, int warnings) => new(
        file,
        FileKind.Site,
        [
            .. Enumerable.Range(1, errors + warnings).Select(i => new Diagnostic(
                i <= errors ? Severity.Error : Severity.Warning, file, i, 2 * i, "what was found", "what to write")),
        ],
        "2 receivers");
}
