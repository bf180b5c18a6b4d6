using System.Text;
using Spurless.Fuzz.Inputs;
using Spurless.Register.Tests;

namespace Spurless.Fuzz.Readers;

/// <summary>The bulk files of the four registers whose layouts are known. The first part's line names the register.</summary>
internal sealed class RegisterFilesReading : IFuzzedReader
{
    private static readonly string[][] Registers =
    [
        ["HD.dat", "LO.dat", "AN.dat", "FR.dat", "EM.dat"],
        ["TAFL_LTAF.csv"],
        ["device_details.csv", "site.csv", "licence.csv"],
        ["WTR.csv"],
    ];

    private readonly ImportPlace _place = new();

    public string Name => "register files";

    public Family Family => Family.Table;

    public IEnumerable<byte[]> Examples
    {
        get
        {
            Action<RowMaker, Scratch>[] makers =
                [static (m, s) => m.Uls(s, 3), static (m, s) => m.Tafl(s, 5), static (m, s) => m.Rrl(s, 5), static (m, s) => m.Wtr(s, 5)];
            for (int r = 0; r < Registers.Length; r++)
            {
                using Scratch scratch = new();
                makers[r](new RowMaker(1), scratch);
                yield return Parts.Join([[(byte)('0' + r)], .. Registers[r].Select(name => Read(Path.Combine(scratch.Input, name)))]);
            }
        }
    }

    public void Read(byte[] input)
    {
        string[] names = Registers[input.Length > 0 ? input[0] % Registers.Length : 0];
        byte[][] parts = Parts.Split(input, names.Length + 1);
        Reading.Hold(_place.Import([.. names.Zip(parts.Skip(1))]).Diagnostics);
    }

    private static byte[] Read(string file) => File.Exists(file) ? File.ReadAllBytes(file) : Encoding.ASCII.GetBytes("");
}
