using Spurless.Reports.Text;

namespace Spurless.Reports.Bench;

/// <summary>What the writers of the bench share.</summary>
internal static class BenchText
{
    /// <summary>Writes a paragraph broken at the page's width.</summary>
    public static void Paragraph(TextWriter to, string text, TextInk ink, TextTone tone = TextTone.Plain) => Lines(to, TextFlow.Printable(text), ink, tone, 0);

    /// <summary>Writes sentences as a list, each with its full stop.</summary>
    public static void List(TextWriter to, IEnumerable<string> sentences, TextInk ink, TextTone tone = TextTone.Plain)
    {
        foreach (string sentence in sentences)
        {
            Lines(to, "- " + TextFlow.Printable(sentence.TrimEnd('.')) + ".", ink, tone, 2);
        }
    }

    private static void Lines(TextWriter to, string text, TextInk ink, TextTone tone, int hanging)
    {
        foreach (string line in TextFlow.Wrap(text, hanging: hanging))
        {
            to.Write(ink.Apply(line, tone));
            to.Write('\n');
        }
    }
}
