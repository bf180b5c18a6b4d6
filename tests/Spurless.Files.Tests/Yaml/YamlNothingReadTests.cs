using CsCheck;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;

namespace Spurless.Files.Tests.Yaml;

/// <summary>A text that gives nothing is said to be wrong, whatever stands in it.</summary>
public class YamlNothingReadTests
{
    [Theory]
    [InlineData(" : 27.67", 1)]
    [InlineData(": 27.67", 1)]
    [InlineData("# a remark\n : 27.67 [b, gnd], t", 2)]
    [InlineData("\n\n  :\n", 3)]
    [InlineData(": a\nb: c", 1)]
    public void Key_that_is_missing_is_told_where_it_is_due(string text, int line)
    {
        DiagnosticBag findings = new();
        _ = YamlReader.Read(text, "a.yaml", findings);
        Diagnostic told = findings.InOrder()[0]; // what follows may be out of step
        Assert.Equal(Severity.Error, told.Severity);
        Assert.Equal(line, told.Line);
        Assert.Contains("key", told.What, StringComparison.Ordinal);
    }

    [Fact]
    public void Any_text_of_yaml_s_own_signs_gives_a_node_or_an_error()
    {
        Gen.OneOf(" ", ":", ": ", "- ", "[", "]", "{", "}", ",", "\n", "\n ", "\"", "'", "#", "?", "? ", "&a ", "*a", "!", "|", ">",
                "%", "---", "...", "a", "1", "\t", "~", "")
            .Array[1, 12]
            .Sample(parts =>
            {
                string text = string.Concat(parts);
                DiagnosticBag findings = new();
                YamlNode? node = YamlReader.ReadNode(text, "a.yaml", findings);
                Assert.True(node is not null || findings.HasErrors, $"'{text}' gives nothing, and nothing says why");
            });
    }
}
