using System.Text.Json;
using Spurless.Reports.Tests.Text;
using Spurless.Reports.Text;

namespace Spurless.Reports.Tests.Whole;

/// <summary>What every text for a terminal keeps to: its width, its figures, its nouns, and the conclusion first.</summary>
public sealed class TextLawTests
{
    public static TheoryData<string> Answers => [.. Answered.Texts.Keys];

    [Theory]
    [MemberData(nameof(Answers))]
    public void Stands_within_a_terminal_and_has_no_broken_figure(string answer)
    {
        string text = Answered.TextOf(answer);
        Assert.EndsWith("\n", text, StringComparison.Ordinal);
        Assert.All(text.Split('\n'), static l =>
        {
            Assert.True(TextFlow.WidthOf(l) <= TextFlow.DefaultWidth, l);
            Assert.Equal(l.TrimEnd(), l);
            WrittenText.Figures(l);
        });
        Assert.DoesNotContain(text, static c => c != '\n' && char.IsControl(c));
        Assert.DoesNotContain("\n\n\n", text, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Answers))]
    public void Has_signs_that_every_keyboard_has(string answer) =>
        Assert.DoesNotContain(Answered.TextOf(answer), static c => c is '\u2212' or '\u00D7' or '\u202F' or '\u00A0' or '\u00B1');

    /// <summary>What the JSON says in a sentence is what the text says, word for word.</summary>
    [Theory]
    [InlineData("cure", "receivers")]
    [InlineData("locate", "receivers")]
    [InlineData("plan", "")]
    [InlineData("newcomer", "")]
    [InlineData("receiver", "")]
    [InlineData("bypass", "")]
    [InlineData("stress", "")]
    [InlineData("tolerance", "")]
    public void Says_the_sentence_of_the_json(string answer, string list)
    {
        JsonElement root = JsonDocument.Parse(Answered.JsonOf(answer)).RootElement;
        JsonElement[] said = list.Length == 0 ? [root] : [.. root.GetProperty(list).EnumerateArray()];
        string text = Flat(Answered.TextOf(answer));
        Assert.All(said, of =>
        {
            string says = Flat(of.GetProperty("says").GetString()!);
            Assert.True(says.Length > 10, says);
            Assert.Contains(says, text, StringComparison.Ordinal);
            WrittenText.Agree(says);
            Assert.EndsWith(".", says, StringComparison.Ordinal);
        });
    }

    private static string Flat(string text) => string.Join(' ', text.Split((char[])[' ', '\n'], StringSplitOptions.RemoveEmptyEntries));
}
