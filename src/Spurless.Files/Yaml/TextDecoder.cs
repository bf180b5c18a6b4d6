using System.Globalization;
using System.Text;
using Spurless.Files.Diagnostics;

namespace Spurless.Files.Yaml;

/// <summary>Turns a file's bytes into text: UTF-8, with or without a byte-order mark, of at most <see cref="MaximumBytes"/>.</summary>
public static class TextDecoder
{
    /// <summary>The largest file that is read, in bytes.</summary>
    public const int MaximumBytes = 10_000_000;

    private static readonly UTF8Encoding Strict = new(false, true);

    /// <summary>Decodes a file's bytes; the byte-order mark is not part of the text.</summary>
    /// <param name="bytes">The bytes of the file.</param>
    /// <param name="fileName">The file's name as the user gave it.</param>
    /// <param name="diagnostics">Takes what is wrong.</param>
    /// <returns>The text, or null where the file is too large, not UTF-8, or holds characters that no text has.</returns>
    public static string? Decode(ReadOnlySpan<byte> bytes, string fileName, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(diagnostics);
        if (bytes.Length > MaximumBytes)
        {
            TooLarge(fileName, diagnostics);
            return null;
        }

        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]) || bytes.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF])
            || bytes.StartsWith((ReadOnlySpan<byte>)[0, 0, 0xFE, 0xFF]))
        {
            diagnostics.Error(fileName, 1, 1, "the text is in UTF-16 or UTF-32, at byte 0", "save the file as UTF-8");
            return null;
        }

        if (bytes.StartsWith((ReadOnlySpan<byte>)[0xEF, 0xBB, 0xBF]))
        {
            bytes = bytes[3..];
        }

        int good = System.Text.Unicode.Utf8.IsValid(bytes) ? bytes.Length : FirstInvalid(bytes);
        if (good < bytes.Length)
        {
            string before = Strict.GetString(bytes[..good]);
            YamlPosition at = new LineMap(before).At(before.Length);
            string value = bytes[good].ToString("X2", CultureInfo.InvariantCulture);
            diagnostics.Error(fileName, at.Line, at.Column, $"byte {good} ({value} in hexadecimal) is not UTF-8", "save the file as UTF-8");
            return null;
        }

        string text = Strict.GetString(bytes);
        return Check(text, fileName, diagnostics) ? text : null;
    }

    /// <summary>Reads a stream to its end and decodes it. Never reads more than the limit.</summary>
    /// <param name="stream">The stream; stays open.</param>
    /// <param name="fileName">The file's name as the user gave it.</param>
    /// <param name="diagnostics">Takes what is wrong.</param>
    public static string? Decode(Stream stream, string fileName, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(stream);
        using MemoryStream memory = new();
        byte[] block = new byte[65536];
        int read;
        while ((read = stream.Read(block)) > 0 && memory.Length <= MaximumBytes)
        {
            memory.Write(block, 0, read);
        }

        return Decode(memory.GetBuffer().AsSpan(0, (int)memory.Length), fileName, diagnostics);
    }

    /// <summary>Whether a text is small enough and holds only characters that belong into a text.</summary>
    internal static bool Check(string text, string fileName, DiagnosticBag diagnostics)
    {
        if (text.Length > MaximumBytes || Encoding.UTF8.GetByteCount(text) > MaximumBytes)
        {
            TooLarge(fileName, diagnostics);
            return false;
        }

        for (int i = 0; i < text.Length; i++)
        {
            char c = text[i];
            bool pair = char.IsHighSurrogate(c) && i + 1 < text.Length && char.IsLowSurrogate(text[i + 1]);
            if (pair)
            {
                i++;
                continue;
            }

            bool control = (char.IsControl(c) && c is not ('\t' or '\n' or '\r' or '\u0085'))
                || char.IsSurrogate(c)
                || c is '\uFEFF' or '\uFFFE' or '\uFFFF';
            if (control)
            {
                YamlPosition at = new LineMap(text).At(i);
                string code = ((int)c).ToString("X4", CultureInfo.InvariantCulture);
                diagnostics.Error(fileName, at.Line, at.Column, $"the character U+{code} does not belong into a text file", "delete it");
                return false;
            }
        }

        return true;
    }

    private static void TooLarge(string fileName, DiagnosticBag diagnostics) =>
        diagnostics.Error(fileName, 0, 0, "the file is larger than 10 MB", "split it or leave out what is not needed");

    private static int FirstInvalid(ReadOnlySpan<byte> bytes)
    {
        int at = 0;
        while (at < bytes.Length && Rune.DecodeFromUtf8(bytes[at..], out _, out int used) == System.Buffers.OperationStatus.Done)
        {
            at += used;
        }

        return at;
    }
}
