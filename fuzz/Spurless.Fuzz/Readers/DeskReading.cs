using System.Text;
using Spurless.Files.Diagnostics;
using Spurless.Fuzz.Inputs;
using Spurless.Workbench.Desk;

namespace Spurless.Fuzz.Readers;

/// <summary>
/// The part of an address that says what was moved on a page: read, put in force and written into the files. What is kept must be a site
/// that can be read again.
/// </summary>
internal sealed class DeskReading : IFuzzedReader
{
    private const string File = "quernmoss-filtered.site.yaml";
    private readonly Lazy<StudyDesk> _opened = new(Open);

    private StudyDesk Desk => _opened.Value;

    public string Name => "page moves";

    public Family Family => Family.Lines;

    public IEnumerable<byte[]> Examples
    {
        get
        {
            foreach (DeskItem item in Desk.Items)
            {
                yield return Encoding.UTF8.GetBytes(DeskSettings.None.With(item, item.FileValue + 1).ToString());
            }

            yield return Encoding.UTF8.GetBytes(string.Join(';', Desk.Items.Select(static i => i.Id + "=1")));
        }
    }

    public void Read(byte[] input)
    {
        DeskSettings settings = DeskSettings.Parse(Encoding.UTF8.GetString(input)).Known(Desk.Items);
        if (!DeskSettings.Parse(settings.ToString()).Equals(settings))
        {
            throw new Violation("settings that are read again as others: " + settings);
        }

        foreach (KeptFile kept in Desk.Keep(settings, out _))
        {
            DiagnosticBag findings = new();
            if (kept.Path.Length == 0
                && Sites.Sources.SourceReader.Site(Sites.Sources.SourceFile.OfText(File, kept.Text, FilesAtHand.Demo), findings) is null)
            {
                throw new Violation($"{settings} keeps a site with an error: {findings.InOrder()[0]}");
            }
        }
    }

    private static StudyDesk Open() => StudyDesk.Open(Encoding.UTF8.GetString(Reading.Example("demo", File)), File, FilesAtHand.Demo,
        ["filters/three-tank.circuit.yaml", "filters/duplexer-high.s2p"], out IReadOnlyList<Diagnostic> findings)
        ?? throw new InvalidOperationException(string.Join('\n', findings));
}
