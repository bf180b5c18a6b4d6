using System.Text;
using Spurless.Files.Csv;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;

namespace Spurless.Sites.Documents;

/// <summary>
/// Reads and checks a site file with everything it names. All that is wrong is reported at once; no input makes it throw.
/// </summary>
public static class SiteReader
{
    /// <summary>The most emitters a site may have.</summary>
    public const int MaximumEmitters = 5000;

    /// <summary>Reads a site file's text.</summary>
    /// <param name="text">The text.</param>
    /// <param name="fileName">Its name as the user gave it.</param>
    /// <param name="files">The files beside it.</param>
    public static SiteReading Read(string text, string fileName, ISiteFiles files)
    {
        ArgumentNullException.ThrowIfNull(text);
        return Read(
            text, Encoding.UTF8.GetBytes(text), fileName, files, new DiagnosticBag(), SiteShapes.Site, SiteSurroundings.None);
    }

    /// <summary>Reads a site file's bytes.</summary>
    /// <param name="bytes">The bytes.</param>
    /// <param name="fileName">Its name as the user gave it.</param>
    /// <param name="files">The files beside it.</param>
    public static SiteReading Read(byte[] bytes, string fileName, ISiteFiles files)
    {
        ArgumentNullException.ThrowIfNull(bytes);
        return Read(bytes, fileName, files, SiteShapes.Site, SiteSurroundings.None);
    }

    /// <summary>
    /// Reads the file of a newcomer to a site: one that may lack receivers or emitters, and may name those of the site.
    /// </summary>
    /// <param name="bytes">The bytes.</param>
    /// <param name="fileName">Its name as the user gave it.</param>
    /// <param name="files">The files beside it.</param>
    /// <param name="site">The site; null where it could not be read, and then no name is called unknown.</param>
    public static SiteReading ReadNewcomer(byte[] bytes, string fileName, ISiteFiles files, SiteDocument? site)
    {
        ArgumentNullException.ThrowIfNull(bytes);
        return Read(bytes, fileName, files, SiteShapes.Newcomer, SiteSurroundings.Of(site));
    }

    private static SiteReading Read(
        byte[] bytes, string fileName, ISiteFiles files, Shape<SiteDocument> shape, SiteSurroundings beside)
    {
        DiagnosticBag diagnostics = new();
        return TextDecoder.Decode(bytes, fileName, diagnostics) is { } text
            ? Read(text, bytes, fileName, files, diagnostics, shape, beside)
            : new SiteReading(null, diagnostics.InOrder(), EntrySource.None, [new SiteInput(fileName, bytes)]);
    }

    private static SiteReading Read(
        string text, byte[] bytes, string fileName, ISiteFiles files, DiagnosticBag diagnostics, Shape<SiteDocument> shape,
        SiteSurroundings beside)
    {
        ArgumentNullException.ThrowIfNull(files);
        List<SiteInput> inputs = [new SiteInput(fileName, bytes)];
        YamlMapping? root = YamlReader.Read(text, fileName, diagnostics);
        if (root is null || !shape.TryRead(root, diagnostics, out SiteDocument? site))
        {
            return new SiteReading(null, diagnostics.InOrder(), EntrySource.Of(root), inputs);
        }

        PresentKeys present = new();
        present.Add(root, "");
        List<EmitterEntry> emitters = [.. site.Emitters];
        if (site.EmittersFrom is { } table && files.Read(table.Path) is { } content)
        {
            string name = files.NameOf(table.Path);
            inputs.Add(new SiteInput(name, content));
            ReadTable(content, name, diagnostics, emitters, present);
        }

        site = site with { Emitters = emitters, KeysPresent = present.All, Files = SiteFileList.Of(site with { Emitters = emitters }) };
        SiteChecks.Run(site, files, diagnostics, beside);
        if (!diagnostics.HasErrors)
        {
            CouplingEnds.Check(emitters, beside.Emitters, diagnostics);
            site = site with { Emitters = CouplingEnds.Joined(emitters) };
        }

        return new SiteReading(diagnostics.HasErrors ? null : site, diagnostics.InOrder(), site.Source, inputs);
    }

    private static void ReadTable(byte[] content, string name, DiagnosticBag diagnostics, List<EmitterEntry> emitters, PresentKeys present)
    {
        if (CsvTable.Read(content, name, diagnostics) is not { } table)
        {
            return;
        }

        foreach (YamlMapping row in CsvRecords.Of(table, diagnostics))
        {
            present.Add(row, "emitters");
            if (EmitterShapes.Emitter.TryRead(row, diagnostics, out EmitterEntry? emitter))
            {
                emitters.Add(emitter);
            }
        }
    }
}
