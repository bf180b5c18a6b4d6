using Spurless.Register.Reading;

namespace Spurless.Register.Layouts.FccUls;

/// <summary>
/// The FCC's Universal Licensing System, public access files: <c>HD.dat</c> licences, <c>LO.dat</c> locations, <c>AN.dat</c> antennas,
/// <c>FR.dat</c>
/// frequencies, <c>EM.dat</c> emissions, separated by bars, without heads. Positions by the FCC's public access database definitions,
/// version 4.9 (seen in
/// a public copy); later layouts append columns. Persons' names (<c>EN.dat</c>) are not read.
/// </summary>
internal sealed class UlsLayout : IRegisterLayout
{
    private static readonly (string Type, int Fields)[] Types = [("HD", 50), ("LO", 51), ("AN", 36), ("EM", 16), ("FR", 29)];
    private static readonly string[] NotRead =
        ["EN", "AM", "CO", "SF", "HS", "SC", "CP", "FA", "MW", "PA", "CG", "FS", "FT", "F2", "F3", "F4", "F5", "F6", "L2", "L3", "L4",
        "A2", "AC", "AT", "BO", "CD", "IR", "LD", "MC", "ME", "MF", "OP", "P2", "PC", "PI", "RC", "SE", "SG", "SH", "SR", "TP", "UA",
        "VC", "RE", "SV", "CF", "CH", "LA", "LF", "LH", "LL", "LM", "LS", "MI", "MK", "MP", "MH", "NG", "TA", "O2", "RZ", "RA"];

    private readonly Dictionary<string, List<RegisterFile>> _files;
    private UlsTables _tables = new();

    private UlsLayout(Dictionary<string, List<RegisterFile>> files) => _files = files;

    public string Register => "fcc-uls";

    public IReadOnlyList<RegisterFile> Rows => _files["FR"];

    public IReadOnlyList<RegisterFile> Files => [.. _files.Values.SelectMany(static f => f)];

    public string RowBegins => "FR|";

    /// <summary>Whether a file begins with a row of this layout.</summary>
    public static bool LooksLike(byte[] head) => TypeOf(head) is not null;

    /// <summary>Whether a file is called like one of these.</summary>
    public static bool IsNamed(string name) => TypeByName(name) is not null;

    /// <summary>Takes this register's files.</summary>
    public static UlsLayout? Claim(IReadOnlyList<RegisterFile> files, ImportWatch watch)
    {
        Dictionary<string, List<RegisterFile>> claimed =
            Types.ToDictionary(static t => t.Type, static _ => new List<RegisterFile>(), StringComparer.Ordinal);
        foreach (RegisterFile file in files)
        {
            string type = TypeOf(file.Head(watch.Limits, 64)) ?? TypeByName(file.Name) ?? "";
            if (claimed.TryGetValue(type, out List<RegisterFile>? list))
            {
                list.Add(file);
            }
        }

        if (claimed.Values.All(static f => f.Count == 0))
        {
            return null;
        }

        foreach ((string type, string what) in new[] { ("FR", "frequencies"), ("HD", "licences"), ("LO", "locations") })
        {
            if (claimed[type].Count == 0)
            {
                string beside = claimed.Values.First(static f => f.Count > 0)[0].Shown;
                watch.Diagnostics.Error(beside, 0, 0, $"{type}.dat, the {what}, is missing beside this file",
                    "give all files of one download, best the whole zip file");
            }
        }

        foreach ((string type, string what) in new[] { ("AN", "antenna heights and directions are"), ("EM", "emissions are") })
        {
            if (claimed[type].Count == 0 && claimed["FR"].Count > 0)
            {
                watch.Diagnostics.Warning(claimed["FR"][0].Shown, 0, 0, $"{type}.dat is missing beside this file, so {what} not known",
                    "give all files of one download");
            }
        }

        return new UlsLayout(claimed);
    }

    public void LoadTables(ImportWatch watch)
    {
        _tables = new UlsTables();
        Load("HD", watch, row => _tables.AddLicence(row, watch));
        Load("LO", watch, _tables.AddLocation);
        Load("AN", watch, _tables.AddAntenna);
        Load("EM", watch, _tables.AddEmission);
    }

    public IRowReader Open(RegisterFile file, ImportWatch watch) => new UlsRowReader(file.Open(watch.Limits), _tables);

    private void Load(string type, ImportWatch watch, Action<RecordReader> row)
    {
        foreach (RegisterFile file in _files[type])
        {
            watch.ForEach(file, RecordShape.Piped(type, Types.First(t => t.Type == type).Fields), row);
        }
    }

    /// <summary>The record type by a file's first line.</summary>
    private static string? TypeOf(byte[] head)
    {
        string type = head.Length >= 3 && head[2] == (byte)'|' ? System.Text.Encoding.Latin1.GetString(head, 0, 2) : "";
        return IsType(type) ? type : null;
    }

    private static string? TypeByName(string name)
    {
        string stem = Path.GetFileNameWithoutExtension(name).ToUpperInvariant();
        return Path.GetExtension(name).Equals(".dat", StringComparison.OrdinalIgnoreCase) && IsType(stem) ? stem : null;
    }

    private static bool IsType(string text) => Types.Any(t => t.Type == text) || NotRead.Contains(text);
}
