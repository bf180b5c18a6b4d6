using System.Text;
using Spurless.Fuzz.Inputs;
using Spurless.Sites.Checking;
using Spurless.Sites.Sources;

namespace Spurless.Fuzz.Readers;

/// <summary><c>check</c> of a file whose kind is told by its name and its beginning. The first line is the name.</summary>
internal sealed class AnyFileReading : IFuzzedReader
{
    public string Name => "kind of file";

    public Family Family => Family.Lines;

    public IEnumerable<byte[]> Examples =>
    [
        "x.yaml\nspurless: 1\nsite: x\nreceivers: []\n"u8.ToArray(), "x\nspurless_circuit: 1\nname: x\n"u8.ToArray(),
        "x.csv\nfrequency_hz,level_dbm\n1,2\n"u8.ToArray(), "x.csv\nlatitude,longitude,channel\n1,2,3\n"u8.ToArray(),
        "x\n# MHz S RI R 50\n1 0 0\n"u8.ToArray(), "x.columns.yaml\nspurless_columns: 1\n"u8.ToArray(),
        "x.csv\ndistance_km,height_m\n0,1\n"u8.ToArray(), "x.register.csv\na,b\n1,2\n"u8.ToArray(), "x.TIF\nII*"u8.ToArray(),
    ];

    public void Read(byte[] input)
    {
        int line = Array.IndexOf(input, (byte)'\n');
        string name = Encoding.Latin1.GetString(input, 0, Math.Max(0, Math.Min(line, 60)));
        SourceFile source = new(name, input[(line + 1)..], FilesAtHand.Demo);
        if (source.Kind == FileKind.Recording)
        {
            return; // read from the disk, not from these bytes: 'wav' and 'sigmf' have it
        }

        CheckResult result = FileCheck.Run(source);
        Reading.Hold(result.Findings);
        _ = FileKinds.Name(result.Kind);
    }
}
