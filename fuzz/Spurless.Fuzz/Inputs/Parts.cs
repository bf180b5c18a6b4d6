using System.Text;

namespace Spurless.Fuzz.Inputs;

/// <summary>Inputs of several files in one: parts between lines of five equals signs.</summary>
internal static class Parts
{
    private static ReadOnlySpan<byte> Between => "\n=====\n"u8;

    /// <summary>Joins parts into an input.</summary>
    public static byte[] Join(params byte[][] parts)
    {
        using MemoryStream all = new();
        for (int i = 0; i < parts.Length; i++)
        {
            all.Write(i == 0 ? [] : Between);
            all.Write(parts[i]);
        }

        return all.ToArray();
    }

    /// <summary>The same of texts.</summary>
    public static byte[] Join(params string[] parts) => Join([.. parts.Select(Encoding.UTF8.GetBytes)]);

    /// <summary>An input's parts; those that are missing are empty, and what is too much belongs to the last one.</summary>
    public static byte[][] Split(byte[] input, int count)
    {
        byte[][] parts = new byte[count][];
        int from = 0;
        for (int i = 0; i < count; i++)
        {
            int length = i == count - 1 ? -1 : input.AsSpan(from).IndexOf(Between);
            int to = length < 0 ? input.Length : from + length;
            parts[i] = input[from..to];
            from = Math.Min(input.Length, to + (length < 0 ? 0 : Between.Length));
        }

        return parts;
    }
}
