using System.Text;
using Spurless.Fuzz.Inputs;
using Spurless.Workbench.Folders;

namespace Spurless.Fuzz.Readers;

/// <summary>
/// What a page does to a site file: a line an event, <c>field=value</c>, <c>field-</c> to take an item away, <c>field>N</c> to move its
/// first item. After the file's text. What was written is read again.
/// </summary>
internal sealed class FieldEditReading : IFuzzedReader
{
    private const int MostEvents = 40;

    public string Name => "page edits";

    public Family Family => Family.Yaml;

    public IEnumerable<byte[]> Examples =>
    [
        Parts.Join(Reading.Example("demo", "quernmoss-filtered.site.yaml"),
            "emitters[0].level=-30 dBm\nreceivers[0].antenna.gain=6 dBd\nemitters[3]-\nemitters>2\nsearch.orders=2-5\n"u8.ToArray()),
        Parts.Join(Reading.Example("tests", "data", "site", "example.site.yaml"),
            "site=a: b # c\nreceivers[0].selectivity=[0 dB at 145 MHz, 25 dB at 160 MHz]\nemitters[1].at=\nexclusive-\n"u8.ToArray()),
        Parts.Join("spurless: 1\nsite: 'x'\nemitters: []\n", "emitters[0].name=\"q\nnote=| x\nreceivers[0].name=- x\n"),
    ];

    public void Read(byte[] input)
    {
        byte[][] parts = Parts.Split(input, 2);
        string text = Encoding.UTF8.GetString(parts[0]);
        foreach (string line in Encoding.UTF8.GetString(parts[1]).Split('\n').Take(MostEvents))
        {
            text = Apply(text, line);
        }
    }

    private static string Apply(string text, string line)
    {
        int at = line.IndexOfAny(['=', '-', '>']);
        string field = at < 0 ? line : line[..at];
        if (!IsField(field))
        {
            return text; // names of fields are the page's own, not the user's
        }

        string value = at < 0 ? "" : line[(at + 1)..];
        string? edited;
        string? problem;
        bool done = at < 0 || line[at] == '=' ? FieldText.TrySet(text, field, value, out edited, out problem)
            : line[at] == '-' ? FieldText.TryRemoveItem(text, field, out edited, out problem)
            : FieldText.TryMoveItem(text, field, 0, int.TryParse(value, out int to) ? to : 1, out edited, out problem);
        if (!done)
        {
            return string.IsNullOrWhiteSpace(problem) ? throw new Violation("refused without a word") : text;
        }

        if (FieldText.Parse(edited!) is null)
        {
            throw new Violation($"'{line}' leaves a file that has errors of form");
        }

        string wanted = value.Trim();
        bool plain = at >= 0 && line[at] == '=' && wanted.Length > 0 && wanted[0] is not ('[' or '{');
        return plain && FieldText.ValueOf(edited!, field) is var now && now != wanted
            ? throw new Violation($"'{line}' is read again as '{now}'")
            : edited!;
    }

    private static bool IsField(string field)
    {
        try
        {
            return FieldText.PathOf(field).Steps.Length is > 0 and < 9;
        }
        catch (FormatException)
        {
            return false;
        }
    }
}
