namespace Spurless.Reports.Text;

/// <summary>
/// What a piece of text stands for, so that a terminal may colour it. The words carry the meaning, the colour only helps the eye.
/// </summary>
public enum TextTone
{
    /// <summary>As it comes.</summary>
    Plain,

    /// <summary>A heading.</summary>
    Strong,

    /// <summary>Of lesser weight.</summary>
    Faint,

    /// <summary>Harmful, or an error.</summary>
    Harmful,

    /// <summary>Marginal, or a warning.</summary>
    Marginal,

    /// <summary>Nothing to worry about.</summary>
    Clear,
}
