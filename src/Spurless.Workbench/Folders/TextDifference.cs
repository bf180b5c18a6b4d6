using System.Security.Cryptography;
using System.Text;

namespace Spurless.Workbench.Folders;

/// <summary>
/// What one version of a text has that another has not: enough to go from either to the other, where the text is still that version.
/// </summary>
/// <param name="At">Where they begin to differ, in UTF-16 units.</param>
/// <param name="Taken">What the earlier one has there.</param>
/// <param name="Put">What the later one has there.</param>
/// <param name="Before">SHA-256 of the earlier one's UTF-8, in lower-case hexadecimal; null where there was no text.</param>
/// <param name="After">The same of the later one.</param>
internal sealed record TextDifference(int At, string Taken, string Put, string? Before, string After)
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>How much is kept, in UTF-16 units.</summary>
    public int Size => Taken.Length + Put.Length;

    /// <summary>The difference of two versions.</summary>
    /// <param name="before">The earlier; null where there was no text.</param>
    /// <param name="after">The later.</param>
    public static TextDifference Of(string? before, string after)
    {
        ReadOnlySpan<char> a = before ?? "", b = after;
        int head = a.CommonPrefixLength(b);
        int tail = 0;
        while (tail < Math.Min(a.Length, b.Length) - head && a[^(tail + 1)] == b[^(tail + 1)])
        {
            tail++;
        }

        return new TextDifference(
            head, a[head..^tail].ToString(), b[head..^tail].ToString(), before is null ? null : VersionOf(before), VersionOf(after));
    }

    /// <summary>The earlier text; null where there was none.</summary>
    /// <param name="after">The later one.</param>
    public string? Earlier(string after) => Before is null ? null : Exchange(after, Put, Taken);

    /// <summary>The later text.</summary>
    /// <param name="before">The earlier one; null where there was none.</param>
    public string Later(string? before) => Exchange(before ?? "", Taken, Put);

    /// <summary>What tells a text's versions apart.</summary>
    internal static string VersionOf(string text) => VersionOf(Utf8.GetBytes(text));

    /// <summary>The same of the bytes of a text.</summary>
    internal static string VersionOf(ReadOnlySpan<byte> bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));

    private string Exchange(string text, string taken, string put) =>
        string.Concat(text.AsSpan(0, At), put, text.AsSpan(At + taken.Length));
}
