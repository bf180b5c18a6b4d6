using System.Globalization;
using System.Text;

namespace Spurless.Fuzz.Inputs;

/// <summary>
/// Makes inputs of a size that no mutation reaches: wide, deep, all in one line, wrong throughout, heads with many dots. A beginning of an
/// example stands before, so that the reader goes on to read it as its own.
/// </summary>
internal sealed class Shapes
{
    private readonly Random _random;
    private readonly Family _family;
    private readonly IReadOnlyList<byte[]> _examples;

    /// <summary>Generators for one reader.</summary>
    public Shapes(Random random, Family family, IReadOnlyList<byte[]> examples) =>
        (_random, _family, _examples) = (random, family, examples);

    /// <summary>The largest input that is made so, in bytes.</summary>
    public const int Largest = 400_000;

    /// <summary>One input.</summary>
    public byte[] Make()
    {
        byte[] example = _examples[_random.Next(_examples.Count)];
        int size = (int)Math.Exp(_random.NextDouble() * Math.Log(Largest / 100.0)) * 100;
        byte[] made = _family switch
        {
            Family.Yaml => Yaml(example, size),
            Family.Table => Table(example, size),
            Family.Lines => Lines(example, size),
            _ => Bytes(example, size),
        };
        return made.Length > Largest ? made[..Largest] : made;
    }

    private byte[] Yaml(byte[] example, int size)
    {
        string head = Begin(example);
        return Text(_random.Next(10) switch
        {
            0 => head + Repeat(size, static i => $"k{i}: v\n"),
            1 => head + "deep:\n" + Stairs(size),
            2 => head + "deep: " + new string(_random.Next(2) == 0 ? '[' : '{', size),
            3 => head + "list: [" + Repeat(size, static i => $"{{ name: n{i}, frequency: 145.{i % 1000:000} MHz }}, ") + "]\n",
            4 => head + "receivers:\n" + Repeat(size, static i => $"  - {{ nmae: x{i}, wrong: {i} }}\n"),
            5 => head + new string('a', 1) + Repeat(size, static _ => ".a") + ": 1\n",
            6 => head + "a0: &a0 [x]\n" + Repeat(size, static i => $"a{i + 1}: &a{i + 1} [*a{i}, *a{i}]\n"),
            7 => head + "text: \"" + new string('\u00e9', size / 2) + "\"\n",
            8 => Whole(example, size),
            _ => head + Repeat(size, static i => i % 2 == 0 ? "\t\n" : "- - - - x: [\n"),
        });
    }

    private byte[] Table(byte[] example, int size)
    {
        string head = Begin(example);
        string heads = Encoding.UTF8.GetString(example).Split('\n').FirstOrDefault(static l => !l.StartsWith('#')) ?? "name";
        return Text(_random.Next(8) switch
        {
            0 => Repeat(size, static i => $"c{i},") + "\n1,2\n",
            1 => "name" + Repeat(size, static _ => ".a") + ",frequency\nx,1 MHz\n",
            2 => heads + "\n" + Repeat(size, static i => $"wrong {i},nothing,\"q\n"),
            3 => heads + "\n" + new string(',', size) + "\n",
            4 => heads + "\n\"" + Repeat(size, static i => $"open quote {i}\n"),
            5 => heads + "\n" + new string('9', size) + "\n",
            6 => Whole(example, size),
            _ => head + Repeat(size, static i => i % 3 == 0 ? "\r" : "\n"),
        });
    }

    private byte[] Lines(byte[] example, int size)
    {
        string head = Begin(example);
        return Text(_random.Next(7) switch
        {
            0 => head + Repeat(size, static i => $"{i} 0.1 0.2 ") + "\n",
            1 => head + Repeat(size, static i => $"{i + 1} 0.1 0.2 0.3 0.4 0.3 0.4 0.1 0.2\n"),
            2 => head + Repeat(size, static i => $"word{i} x\n"),
            3 => Repeat(size, static _ => "# MHz S RI R 50\n"),
            4 => head + "[" + new string('K', size) + "]\n",
            5 => Whole(example, size),
            _ => Repeat(size, static _ => "! comment\n") + head,
        });
    }

    private byte[] Bytes(byte[] example, int size)
    {
        switch (_random.Next(3))
        {
            case 0:
                byte[] noise = new byte[size];
                _random.NextBytes(noise);
                example.AsSpan(0, Math.Min(Math.Min(example.Length, size), 4 + _random.Next(64))).CopyTo(noise);
                return noise;
            case 1:
                int block = 8 + _random.Next(64);
                return [.. example.Take(block), .. Enumerable.Repeat(example.Skip(block).Take(24), size / 24).SelectMany(static b => b)];
            default:
                return [.. example, .. new byte[size]];
        }
    }

    /// <summary>The lines of an example again and again, numbers counted on: large, and right for the most part.</summary>
    private string Whole(byte[] example, int size)
    {
        string[] lines = Encoding.UTF8.GetString(example).Split('\n');
        int from = _random.Next(lines.Length);
        string block = string.Join('\n', lines.Skip(from).Take(1 + _random.Next(4))) + "\n";
        return string.Join('\n', lines.Take(from)) + "\n" + Repeat(size, i => block.Replace("1", i.ToString(CultureInfo.InvariantCulture),
            StringComparison.Ordinal)) + string.Join('\n', lines.Skip(from));
    }

    private string Begin(byte[] example)
    {
        string[] lines = Encoding.UTF8.GetString(example).Split('\n');
        return string.Join('\n', lines.Take(_random.Next(Math.Min(lines.Length, 40)))) + "\n";
    }

    // Indented ever deeper: its size grows with the square of its depth.
    private static string Stairs(int size)
    {
        StringBuilder text = new();
        for (int depth = 1; text.Length < size; depth++)
        {
            text.Append(' ', depth).Append(depth % 2 == 0 ? "- a:\n" : "a:\n");
        }

        return text.ToString();
    }

    private static string Repeat(int size, Func<int, string> piece)
    {
        StringBuilder text = new();
        for (int i = 0; text.Length < size; i++)
        {
            string next = piece(i);
            text.Append(next.Length == 0 ? " " : next);
        }

        return text.ToString();
    }

    private static byte[] Text(string text) => Encoding.UTF8.GetBytes(text);
}
