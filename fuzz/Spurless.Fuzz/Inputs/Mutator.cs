using System.Buffers.Binary;
using System.Text;
using System.Text.RegularExpressions;

namespace Spurless.Fuzz.Inputs;

/// <summary>Changes inputs: bits, bytes, pieces, words of the reader's own examples, numbers, lines.</summary>
internal sealed partial class Mutator
{
    /// <summary>The longest input that is made by changing another.</summary>
    public const int Longest = 64 * 1024;

    private static readonly string[] Numbers =
    [
        "0", "-1", "1e308", "1e-320", "-1e400", "NaN", "Infinity", "9223372036854775807", "9223372036854775808", "4294967296", "-0",
        "0.0000000001", "1e9", "1e15", "65536", "2147483648", "0x10", "1,5", "1_000", "00", ".5", "5.", "\u0665",
    ];

    private static readonly string[] Marks =
    [
        "\n", "\r\n", "\r", "\t", " ", ":", ": ", "- ", "[", "]", "{", "}", ",", ";", "\"", "'", "#", "&a ", "*a", "!!str ", "| ", "> ",
        "---\n", "...\n", "<<: ", "? ", "%", "@", "\0", "\ufeff", "\u202e", "\u2028", "\u00b5", "\u03a9", "\ud83d\ude00", ".", "..",
        "../", "/", "\\", "-", "unknown", "null", "~", "true", "=====\n",
    ];

    private static readonly int[] Whole = [0, 1, -1, 127, 128, 255, 256, 32767, 32768, 65535, 65536, int.MaxValue, int.MinValue, 1 << 28];

    private readonly Random _random;
    private readonly byte[][] _words;

    /// <summary>A mutator.</summary>
    /// <param name="random">Decides everything.</param>
    /// <param name="examples">Inputs whose words it uses.</param>
    public Mutator(Random random, IEnumerable<byte[]> examples)
    {
        _random = random;
        HashSet<string> words = [.. Marks, .. Numbers];
        foreach (byte[] example in examples)
        {
            foreach (Match word in Word().Matches(Encoding.UTF8.GetString(example.AsSpan(0, Math.Min(example.Length, 8192)))))
            {
                words.Add(word.Value);
            }
        }

        _words = [.. words.Order(StringComparer.Ordinal).Take(2000).Select(Encoding.UTF8.GetBytes)];
    }

    /// <summary>A changed input.</summary>
    /// <param name="input">What is changed; it stays as it is.</param>
    /// <param name="other">Another input, pieces of which may come in.</param>
    public byte[] Change(byte[] input, byte[] other)
    {
        byte[] now = input.Length > Longest ? input[..Longest] : input;
        for (int steps = 1 << _random.Next(0, 4); steps > 0; steps--)
        {
            now = Step(now, other);
        }

        return now.Length > Longest ? now[..Longest] : now;
    }

    private byte[] Step(byte[] input, byte[] other)
    {
        if (input.Length == 0)
        {
            return _words[_random.Next(_words.Length)];
        }

        int at = _random.Next(input.Length);
        int piece = Math.Min(input.Length - at, 1 + _random.Next(_random.Next(4) == 0 ? 512 : 16));
        switch (_random.Next(14))
        {
            case 0:
                byte[] flipped = [.. input];
                flipped[at] ^= (byte)(1 << _random.Next(8));
                return flipped;
            case 1:
                byte[] set = [.. input];
                set[at] = (byte)_random.Next(256);
                return set;
            case 2:
                return Put(input, at, piece, []);
            case 3:
                return Put(input, _random.Next(input.Length + 1), 0, input.AsSpan(at, piece));
            case 4 or 5:
                return Put(input, at, 0, _words[_random.Next(_words.Length)]);
            case 6:
                return Put(input, at, piece, _words[_random.Next(_words.Length)]);
            case 7 or 8:
                return Number(input, at);
            case 9:
                int from = other.Length == 0 ? 0 : _random.Next(other.Length);
                return Put(input, at, _random.Next(2) * piece,
                    other.AsSpan(from, Math.Min(other.Length - from, 1 + _random.Next(1024))));
            case 10:
                (int begin, int end) = Line(input, at);
                return Put(input, begin, end - begin, []);
            case 11:
                (int first, int behind) = Line(input, at);
                int times = 1 + _random.Next(_random.Next(8) == 0 ? 64 : 3);
                byte[] line = input[first..behind];
                times = Math.Min(times, 1 + Longest / line.Length);
                return Put(input, first, 0, [.. Enumerable.Repeat(line, times).SelectMany(static l => l)]);
            case 12:
                return Length(input, at);
            default:
                return input[..at];
        }
    }

    private byte[] Number(byte[] input, int at)
    {
        while (at < input.Length && input[at] is < (byte)'0' or > (byte)'9')
        {
            at++;
        }

        int end = at;
        while (end < input.Length && input[end] is (>= (byte)'0' and <= (byte)'9') or (byte)'.')
        {
            end++;
        }

        return Put(input, at, end - at, Encoding.UTF8.GetBytes(Numbers[_random.Next(Numbers.Length)]));
    }

    private byte[] Length(byte[] input, int at)
    {
        byte[] now = [.. input];
        int value = Whole[_random.Next(Whole.Length)] + _random.Next(-2, 3);
        Span<byte> four = stackalloc byte[4];
        if (_random.Next(2) == 0)
        {
            BinaryPrimitives.WriteInt32LittleEndian(four, value);
        }
        else
        {
            BinaryPrimitives.WriteInt32BigEndian(four, value);
        }

        // Heads and their lengths lie on even places.
        int place = at & ~1;
        four[..Math.Min(_random.Next(2) == 0 ? 2 : 4, now.Length - place)].CopyTo(now.AsSpan(place));
        return now;
    }

    private static (int Begin, int End) Line(byte[] input, int at)
    {
        int begin = at == 0 ? 0 : input.AsSpan(0, at).LastIndexOf((byte)'\n') + 1;
        int length = input.AsSpan(at).IndexOf((byte)'\n');
        return (begin, length < 0 ? input.Length : at + length + 1);
    }

    private static byte[] Put(byte[] input, int at, int without, ReadOnlySpan<byte> with)
    {
        byte[] now = new byte[input.Length - without + with.Length];
        input.AsSpan(0, at).CopyTo(now);
        with.CopyTo(now.AsSpan(at));
        input.AsSpan(at + without).CopyTo(now.AsSpan(at + with.Length));
        return now;
    }

    [GeneratedRegex(@"[A-Za-z_\[\].][\w.\-/\[\]]{0,31}")]
    private static partial Regex Word();
}
