namespace Spurless.Reports.Text;

/// <summary>Sentences as the writers of text have them: paragraphs and lists at a fixed width, the user's texts made printable.</summary>
internal static class TextParagraphs
{
    /// <summary>Writes a paragraph broken at the page's width, without colour.</summary>
    public static void Paragraph(TextWriter to, string text) => Paragraph(to, text, TextInk.None);

    /// <summary>Writes a paragraph broken at the page's width.</summary>
    /// <param name="to">Where to.</param>
    /// <param name="text">The sentences.</param>
    /// <param name="ink">How tones are shown.</param>
    /// <param name="tone">What they stand for.</param>
    /// <param name="hanging">Spaces before every line but the first.</param>
    public static void Paragraph(TextWriter to, string text, TextInk ink, TextTone tone = TextTone.Plain, int hanging = 0)
    {
        foreach (string line in TextFlow.Wrap(TextFlow.Printable(text), hanging: hanging))
        {
            to.Write(ink.Apply(line, tone));
            to.Write('\n');
        }
    }

    /// <summary>Writes sentences as a list, each with its full stop.</summary>
    public static void List(TextWriter to, IEnumerable<string> sentences, TextInk ink, TextTone tone = TextTone.Plain)
    {
        foreach (string sentence in sentences)
        {
            Paragraph(to, "- " + sentence.TrimEnd('.') + ".", ink, tone, hanging: 2);
        }
    }
}
