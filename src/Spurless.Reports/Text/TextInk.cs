namespace Spurless.Reports.Text;

/// <summary>How tones are put on paper: not at all, or with the colours of a terminal.</summary>
public sealed class TextInk
{
    private readonly bool _colour;

    private TextInk(bool colour) => _colour = colour;

    /// <summary>No colour: files, pipes, and terminals that ask for none.</summary>
    public static TextInk None { get; } = new(colour: false);

    /// <summary>The sixteen colours every terminal knows (ECMA-48, 'select graphic rendition').</summary>
    public static TextInk Terminal { get; } = new(colour: true);

    /// <summary>The text in its tone.</summary>
    /// <param name="text">Without control characters.</param>
    /// <param name="tone">What it stands for.</param>
    public string Apply(string text, TextTone tone) => !_colour || tone == TextTone.Plain || text.Length == 0
        ? text
        : $"\u001b[{Code(tone)}m{text}\u001b[0m";

    private static string Code(TextTone tone) => tone switch
    {
        TextTone.Strong => "1",
        TextTone.Faint => "2",
        TextTone.Harmful => "1;31",
        TextTone.Marginal => "33",
        _ => "32",
    };
}
