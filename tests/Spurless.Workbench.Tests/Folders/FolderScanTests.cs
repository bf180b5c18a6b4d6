using System.Globalization;
using CsCheck;
using Spurless.Sites.Sources;
using Spurless.Workbench.Folders;

namespace Spurless.Workbench.Tests.Folders;

/// <summary>
/// What a folder lists, against the rules read out over random trees: kinds by name, no hidden names, four deep, in one order.
/// </summary>
public sealed class FolderScanTests : IDisposable
{
    private readonly string _root = Directory.CreateTempSubdirectory("spurless-scan-").FullName;

    public void Dispose() => Directory.Delete(_root, recursive: true);

    private static readonly Gen<string[]> _paths = Gen.Select(
        Gen.OneOf("", "a/", "b/", "a/b/", "a/.hidden/", "a/b/c/", "a/b/c/d/", ".git/"),
        Gen.OneOf("x", "y", ".z", "Wren tower"),
        Gen.OneOf(".site.yaml", ".circuit.yaml", ".SITE.YAML", ".txt", ".wav", ".s2p", ".log.csv", ".hgt", "", ".requirement.yml"))
        .Select(static (folder, name, ending) => folder + name + ending).Array[0, 25];

    // The rules as docs/how-to.md has them.
    private static bool Listed(string path)
    {
        string[] steps = path.Split('/');
        string[] endings = [".site.yaml", ".circuit.yaml", ".s2p", ".log.csv", ".requirement.yml"];
        return steps.Length <= 4 && !steps.Any(static s => s.StartsWith('.'))
            && endings.Any(e => path.EndsWith(e, StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public void Of_any_tree_lists_what_the_rules_say_in_one_order() => _paths.Sample(
        paths =>
        {
            string here = Path.Combine(_root, Guid.NewGuid().ToString("N", CultureInfo.InvariantCulture));
            Directory.CreateDirectory(here);
            foreach (string path in paths)
            {
                string full = Path.Combine(here, path);
                Directory.CreateDirectory(Path.GetDirectoryName(full)!);
                File.WriteAllText(full, path);
            }

            FolderPaths folder = new(here);
            IReadOnlyList<FolderFile> files = FolderScan.Of(folder);
            Assert.Equal(paths.Where(Listed).Distinct().Order(StringComparer.Ordinal), files.Select(static f => f.Name));
            foreach (FolderFile file in files)
            {
                Assert.Equal(file.Name.Length, file.Bytes);
                Assert.True(folder.TryResolve(file.Name, out string full));
                Assert.Equal(file.Name, folder.NameOf(full));
                Assert.Equal(file, FolderScan.One(folder, file.Name));
                Assert.NotEqual(FileKind.Unknown, file.Kind);
            }

            Assert.All(paths.Where(static p => !Listed(p) && p.Split('/').Length <= 4), p => Assert.Null(FolderScan.One(folder, p)));
        },
        iter: 40);

    /// <summary>A path from a site file by the rules of web addresses (RFC 3986, 5.2.4), asked of a library that follows them.</summary>
    [Fact]
    public void NameOf_a_file_beside_a_site_is_that_of_a_relative_reference() => Gen.Select(
        Gen.OneOf("desk.site.yaml", "a/desk.site.yaml", "a/b/desk.site.yaml"),
        Gen.OneOf("x", "y.s2p", "..", ".", "filters").Array[1, 5]).Sample((site, steps) =>
        {
            // A reference that ends in a folder is none of a file; one that leads out of the folder is not followed.
            string path = string.Join('/', steps) + "/f.s2p";
            int depth = site.Count(static c => c == '/');
            foreach (string step in steps)
            {
                depth += step == ".." ? -1 : step == "." ? 0 : 1;
                if (depth < 0)
                {
                    Assert.False(new FilesBeside(new FolderPaths(_root), site).Exists(path));
                    return;
                }
            }

            FilesBeside beside = new(new FolderPaths(_root), site);
            string expected = new Uri(new Uri("http://folder/" + site), path).AbsolutePath[1..];
            Assert.Equal(expected, beside.NameOf(path));
            Assert.False(beside.Exists(path));
            Assert.Equal([expected], beside.Asked);
        });
}
