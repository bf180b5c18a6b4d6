namespace Spurless.Reports.Text;

/// <summary>On which side of its column a cell stands.</summary>
public enum TextSide
{
    /// <summary>Words.</summary>
    Left,

    /// <summary>Numbers of one number of decimals, so that their points stand under each other.</summary>
    Right,
}

/// <summary>A column of a <see cref="TextTable"/>.</summary>
/// <param name="Heading">Its head; <c>\n</c> makes a head of several lines.</param>
/// <param name="Side">On which side its cells stand.</param>
/// <param name="Wraps">Whether its cells may be broken over several lines where the table is too wide.</param>
public sealed record TextColumn(string Heading, TextSide Side = TextSide.Left, bool Wraps = false);
