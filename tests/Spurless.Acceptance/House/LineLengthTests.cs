using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.House;

/// <summary>No line of source is longer than what .editorconfig says (max_line_length), so that two files fit beside each other.</summary>
public class LineLengthTests
{
    private const int Most = 140;

    [Fact]
    public void Lines_of_source_fit_into_their_width()
    {
        string[] longer = [.. SourceText.Files(".cs", ".razor")
            .SelectMany(static f => SourceText.Lines(f).Select((line, index) => (Where: $"{f}:{index + 1}", line.Length)))
            .Where(static l => l.Length > Most)
            .Select(static l => $"{l.Where}: {l.Length} characters")];
        Assert.True(longer.Length == 0, string.Join('\n', longer));
    }

    [Fact]
    public void Editor_says_the_same_width() =>
        Assert.Contains($"max_line_length = {Most}", File.ReadAllLines(Repository.PathOf(".editorconfig")));
}
