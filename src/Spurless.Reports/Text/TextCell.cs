namespace Spurless.Reports.Text;

/// <summary>One cell of a <see cref="TextTable"/>.</summary>
/// <param name="Text">Its words.</param>
/// <param name="Tone">What they stand for.</param>
public readonly record struct TextCell(string Text, TextTone Tone = TextTone.Plain)
{
    /// <summary>A cell in the plain tone.</summary>
    public static implicit operator TextCell(string text) => new(text);
}
