using Spurless.Files.Diagnostics;
using Spurless.Fuzz.Inputs;
using Spurless.Register;
using Spurless.Register.Importing;

namespace Spurless.Fuzz.Readers;

/// <summary>A register's table with the mapping of its columns: imported whole into a database of its own.</summary>
internal sealed class RegisterTableReading : IFuzzedReader
{
    private readonly ImportPlace _place = new();

    public string Name => "register table";

    public Family Family => Family.Table;

    public IEnumerable<byte[]> Examples =>
    [
        Parts.Join(
            Reading.Example("demo", "register", "extract.columns.yaml"), Reading.Example("demo", "register", "extract.register.csv")),
    ];

    public void Read(byte[] input)
    {
        byte[][] parts = Parts.Split(input, 2);
        DiagnosticBag findings = new();
        Reading.Hold(findings, RegisterMapping.Check(parts[0], "x.columns.yaml", findings) is not null);
        ImportOutcome outcome = _place.Import([("x.columns.yaml", parts[0]), ("x.register.csv", parts[1])]);
        Reading.Hold(outcome.Diagnostics);
    }
}
