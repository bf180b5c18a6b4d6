using System.Text;

namespace Spurless.Register.Layouts;

/// <summary>Keeps each of a few thousand different short texts once; a number stands for it.</summary>
internal sealed class StringPool
{
    private readonly Dictionary<string, int> _numbers = new(StringComparer.Ordinal);
    private readonly Dictionary<string, int>.AlternateLookup<ReadOnlySpan<char>> _lookup;
    private readonly List<string> _texts = [""];

    public StringPool()
    {
        _numbers.Add("", 0);
        _lookup = _numbers.GetAlternateLookup<ReadOnlySpan<char>>();
    }

    public string this[int number] => _texts[number];

    public int Add(ReadOnlySpan<byte> field)
    {
        if (field.Length > 256)
        {
            field = field[..256];
        }

        Span<char> text = stackalloc char[field.Length];
        int length = Encoding.Latin1.GetChars(field, text);
        if (!_lookup.TryGetValue(text[..length], out int number))
        {
            number = _texts.Count;
            string kept = text[..length].ToString();
            _texts.Add(kept);
            _numbers.Add(kept, number);
        }

        return number;
    }
}
