using System.IO.Compression;
using System.Xml.Linq;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.House;

/// <summary>The rooms that are libraries of use to others can be packed, with the text of every public member. Slow: it packs.</summary>
[Trait("Category", "Long")]
public class PackTests
{
    /// <summary>The projects that say they can be packed.</summary>
    public static TheoryData<string> Packable => [.. Projects.Where(IsPackable).Select(static p => Path.GetFileNameWithoutExtension(p))];

    private static IEnumerable<string> Projects =>
        SourceText.Files(".csproj").Where(static f => f.StartsWith("src/", StringComparison.Ordinal));

    [Theory]
    [MemberData(nameof(Packable))]
    public async Task Pack_of_a_library_holds_assembly_text_and_licence(string name)
    {
        using WorkFolder folder = new();
        Ended ended = await BuiltProgram.RunAsync(
            Repository.Root, "dotnet", ["pack", $"src/{name}", "-c", "Release", "--no-build", "-nologo", "-v:quiet", "-o", folder.Path]);
        Assert.True(ended.Status == 0, ended.Output + ended.Error);
        Assert.DoesNotContain("warning", ended.Output, StringComparison.OrdinalIgnoreCase);

        await using ZipArchive package = await ZipFile.OpenReadAsync(Assert.Single(Directory.GetFiles(folder.Path, "*.nupkg")));
        Assert.NotNull(package.GetEntry($"lib/net10.0/{name}.dll"));
        Assert.NotEmpty(Read(package, $"lib/net10.0/{name}.xml").Descendants("member"));
        XElement about = Read(package, $"{name}.nuspec").Root!.Elements().Single();
        string Of(string element) => about.Elements().Single(e => e.Name.LocalName == element).Value;
        Assert.Equal("MIT", Of("license"));
        Assert.True(Of("description").Length > 20, Of("description"));
    }

    /// <summary>A package may only need packages, so what a packed room knows is packed too.</summary>
    [Fact]
    public void Packable_rooms_know_only_packable_rooms()
    {
        string[] packable = [.. Projects.Where(IsPackable)];
        Assert.NotEmpty(packable);
        foreach (string project in packable)
        {
            string folder = Path.GetDirectoryName(Repository.PathOf(project))!;
            foreach (XElement reference in XDocument.Load(Repository.PathOf(project)).Descendants("ProjectReference"))
            {
                string known = Path.GetFullPath(Path.Combine(folder, reference.Attribute("Include")!.Value));
                Assert.True(IsPackable(known), $"{project} is packed and knows {Path.GetFileName(known)}, which is not");
            }
        }
    }

    private static bool IsPackable(string project) =>
        XDocument.Load(Repository.PathOf(project)).Descendants("IsPackable").Any(static e => e.Value == "true");

    private static XDocument Read(ZipArchive package, string entry)
    {
        using Stream stream = package.GetEntry(entry)!.Open();
        return XDocument.Load(stream);
    }
}
