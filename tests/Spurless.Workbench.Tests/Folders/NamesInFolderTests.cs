using Spurless.Sites.Documents;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Tests.Folders;

/// <summary>
/// How files of a folder name each other, against the resolution of relative references of RFC 3986 (section 5.2.4, examples of 5.4.1)
/// and against going there and back.
/// </summary>
public sealed class NamesInFolderTests : IDisposable
{
    private readonly string _path = Directory.CreateTempSubdirectory("spurless-names-").FullName;

    public void Dispose() => Directory.Delete(_path, recursive: true);

    [Theory]
    [InlineData("a.yaml", "")]
    [InlineData("b/c/d.yaml", "b/c/")]
    [InlineData("b/", "b/")]
    public void Beside_is_what_stands_before_the_files_own_name(string file, string expected) =>
        Assert.Equal(expected, NamesInFolder.Beside(file));

    // RFC 3986, 5.4.1, with its base http://a/b/c/d;p?q: the path part alone, without what has a query, a fragment or no end.
    [Theory]
    [InlineData("g", "b/c/g")]
    [InlineData("./g", "b/c/g")]
    [InlineData("g/x", "b/c/g/x")]
    [InlineData("../g", "b/g")]
    [InlineData("../../g", "g")]
    [InlineData("g/./h", "b/c/g/h")]
    [InlineData("g/../h", "b/c/h")]
    [InlineData("./../g", "b/g")]
    public void NameOf_resolves_as_the_standard_does(string reference, string expected) =>
        Assert.Equal(expected, Beside("b/c/d").NameOf(reference));

    /// <summary>What leads out stays outside: it never becomes the name of a file within.</summary>
    [Theory]
    [InlineData("a.site.yaml", "../x.s2p")]
    [InlineData("b/a.site.yaml", "../../x.s2p")]
    [InlineData("b/a.site.yaml", "../../../b/x.s2p")]
    public void NameOf_what_leads_out_is_no_name_within(string file, string reference)
    {
        File.WriteAllText(Path.Combine(_path, "x.s2p"), "");
        ISiteFiles beside = Beside(file);
        Assert.StartsWith("..", beside.NameOf(reference), StringComparison.Ordinal);
        Assert.False(beside.Exists(reference));
        Assert.Null(beside.Read(reference));
    }

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 40)];

    /// <summary>The way from one file to another, gone, ends at it.</summary>
    [Theory]
    [MemberData(nameof(Seeds))]
    public void From_gone_from_the_file_ends_at_what_it_names(int seed)
    {
        Random random = new(seed);
        string Name() => string.Concat(Enumerable.Range(0, random.Next(4)).Select(_ => $"{(char)('a' + random.Next(3))}/"))
            + $"{(char)('k' + random.Next(3))}.yaml";
        (string file, string named) = (Name(), Name());
        string way = NamesInFolder.From(file, named);
        Assert.DoesNotContain('\\', way);
        Assert.Equal(named, Beside(file).NameOf(way));
    }

    private ISiteFiles Beside(string file)
    {
        using OpenFolder folder = new(_path, TimeProvider.System);
        return folder.Beside(file);
    }
}
