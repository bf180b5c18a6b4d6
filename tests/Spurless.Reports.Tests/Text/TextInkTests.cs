using System.Text.RegularExpressions;
using CsCheck;
using Spurless.Reports.Text;

namespace Spurless.Reports.Tests.Text;

/// <summary>Colour is put on and can be taken off; paragraphs and lists keep their words and their width.</summary>
public sealed partial class TextInkTests
{
    private static readonly Gen<string> _words = Gen.String[Gen.Char['a', 'g'], 1, 9].Array[1, 40].Select(static w => string.Join(' ', w));

    [Fact]
    public void Apply_colour_is_taken_off_without_a_trace() => Gen.Select(_words, Gen.Enum<TextTone>()).Sample(static (text, tone) =>
    {
        Assert.Equal(text, TextInk.None.Apply(text, tone));
        string coloured = TextInk.Terminal.Apply(text, tone);
        Assert.Equal(tone != TextTone.Plain, coloured != text);
        Assert.Equal(text, Colour().Replace(coloured, ""));

        // What was switched on is switched off again before the line ends (ECMA-48, 8.3.117: 0 is the default rendition).
        Assert.True(tone == TextTone.Plain || coloured.EndsWith("\u001b[0m", StringComparison.Ordinal));
    });

    [Fact]
    public void Tones_have_colours_of_their_own() => Assert.Equal(
        Enum.GetValues<TextTone>().Length,
        Enum.GetValues<TextTone>().Select(static t => TextInk.Terminal.Apply("x", t)).Distinct().Count());

    [Fact]
    public void Paragraph_keeps_its_words_and_the_width_of_a_terminal() => Gen.Select(
        _words, Gen.Int[0, 8]).Sample(static (text, hanging) =>
    {
        using StringWriter to = new();
        TextParagraphs.Paragraph(to, text, TextInk.None, hanging: hanging);
        string[] lines = to.ToString().TrimEnd('\n').Split('\n');
        Assert.All(lines, static l => Assert.InRange(l.Length, 1, TextFlow.DefaultWidth));
        Assert.All(lines[1..], l => Assert.StartsWith(new string(' ', hanging), l, StringComparison.Ordinal));
        Assert.Equal(text, string.Join(' ', lines.Select(static l => l.Trim())));
    });

    [Fact]
    public void List_has_a_dash_and_one_full_stop_a_sentence() => _words.Array[0, 5].Sample(static sentences =>
    {
        using StringWriter to = new(), stopped = new();
        TextParagraphs.List(to, sentences, TextInk.None);
        TextParagraphs.List(stopped, sentences.Select(static s => s + "."), TextInk.None);
        Assert.Equal(to.ToString(), stopped.ToString());
        Assert.Equal(sentences.Length, to.ToString().Split('\n').Count(static l => l.StartsWith("- ", StringComparison.Ordinal)));
        Assert.Equal(sentences.Length, to.ToString().Count(static c => c == '.'));
    });

    [Fact]
    public void Paragraph_of_a_name_that_steers_a_terminal_steers_none()
    {
        using StringWriter to = new();
        TextParagraphs.Paragraph(to, "base \u001b[2J\u202e end", TextInk.None);
        Assert.Equal("base ?[2J? end\n", to.ToString());
    }

    [GeneratedRegex("\u001b\\[[0-9;]*m")]
    private static partial Regex Colour();
}
