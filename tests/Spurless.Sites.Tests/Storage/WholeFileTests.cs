using System.Text;
using CsCheck;
using Spurless.Sites.Storage;

namespace Spurless.Sites.Tests.Storage;

/// <summary>A file is written whole or not at all, and nothing is left beside it.</summary>
public sealed class WholeFileTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("spurless-whole-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void Write_of_any_bytes_again_and_again_is_those_bytes_and_no_other_file() => Gen.Byte.Array[0, 300].Array[1, 5].Sample(
        texts =>
        {
            string path = Path.Combine(_folder, "a.site.yaml");
            foreach (byte[] bytes in texts)
            {
                WholeFile.Write(path, to => to.Write(bytes));
                Assert.Equal(bytes, File.ReadAllBytes(path));
                Assert.Equal([path], Directory.GetFileSystemEntries(_folder));
            }
        },
        iter: 20);

    [Fact]
    public void Write_that_fails_half_way_leaves_the_old_text_and_nothing_beside_it()
    {
        string path = Path.Combine(_folder, "a.site.yaml");
        WholeFile.Write(path, static to => to.Write("old"u8));
        Assert.Throws<InvalidOperationException>(() => WholeFile.Write(path, static to =>
        {
            to.Write(new byte[100_000]);
            throw new InvalidOperationException("the disk is full, say");
        }));
        Assert.Equal("old", File.ReadAllText(path));
        Assert.Equal([path], Directory.GetFileSystemEntries(_folder));
        Assert.Throws<InvalidOperationException>(
            () => WholeFile.Write(Path.Combine(_folder, "new"), static _ => throw new InvalidOperationException("no")));
        Assert.Equal([path], Directory.GetFileSystemEntries(_folder));
    }

    [Fact]
    public void Write_of_a_name_as_long_as_the_system_takes_is_written()
    {
        // 255 bytes are the most; the file beside it is shorter.
        string path = Path.Combine(_folder, new string('\u00FC', 120) + ".site.yaml");
        WholeFile.Write(path, static to => to.Write("x"u8));
        WholeFile.Write(path, static to => to.Write("y"u8));
        Assert.Equal("y", File.ReadAllText(path, Encoding.UTF8));
    }

    [Theory]
    [InlineData(".a.site.yaml.0123456789abcdef.saving", true)]
    [InlineData(".a.0123456789abcdef.saving", true)]
    [InlineData("a.0123456789abcdef.saving", false)]
    [InlineData(".a.0123456789abcdeF.saving", false)]
    [InlineData(".a.0123456789abcdeg.saving", false)]
    [InlineData(".a.123456789abcdef.saving", false)]
    [InlineData(".a.0123456789abcdef.kept", false)]
    [InlineData(".0123456789abcdef.saving", false)]
    [InlineData(".saving", false)]
    public void IsLeftOver_only_of_the_names_that_are_given_here(string name, bool leftOver) =>
        Assert.Equal(leftOver, WholeFile.IsLeftOver(name, WholeFile.Making));
}
