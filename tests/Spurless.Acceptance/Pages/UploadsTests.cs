using Microsoft.AspNetCore.Components.Forms;
using Microsoft.JSInterop;
using Spurless.Acceptance.Running;
using Spurless.Pages.Shell;
using Spurless.Workbench.Folders;

namespace Spurless.Acceptance.Pages;

/// <summary>Files given to a page that cannot be read to their end are told by name; the others are taken all the same.</summary>
public class UploadsTests
{
    [Theory]
    [InlineData(typeof(IOException))]
    [InlineData(typeof(JSException))]
    [InlineData(typeof(TimeoutException))]
    public async Task File_that_goes_while_it_is_read_is_told_and_nothing_of_it_is_kept(Type fault)
    {
        using WorkFolder work = new();
        using OpenFolder folder = new(work.Path, TimeProvider.System);
        Exception failure = fault == typeof(JSException) ? new JSException("gone") : (Exception)Activator.CreateInstance(fault)!;
        Uploads uploads = await Uploads.TakeAsync(
            folder,
            new InputFileChangeEventArgs(
                [new GivenFile("gone.s2p", [1, 2, 3], failure), new GivenFile("there.s2p", "# HZ S MA R 50\n"u8.ToArray(), null)]));

        Assert.Equal(["there.s2p"], uploads.Taken);
        Assert.Equal(
            ["'gone.s2p' could not be read to its end; see that it still lies where it did, and choose it again"], uploads.Problems);
        Assert.Equal(["there.s2p"], Directory.EnumerateFiles(work.Path).Select(Path.GetFileName));
    }

    private sealed record GivenFile(string Name, byte[] Octets, Exception? Fails) : IBrowserFile
    {
        public DateTimeOffset LastModified => DateTimeOffset.UnixEpoch;

        public long Size => Octets.Length;

        public string ContentType => "";

        public Stream OpenReadStream(long maxAllowedSize = 512_000, CancellationToken cancellationToken = default) =>
            Fails is null ? new MemoryStream(Octets) : new BreakingStream(Octets, Fails);
    }

    // Gives what it has and then fails, as a file does that is moved while it is read.
    private sealed class BreakingStream(byte[] octets, Exception fails) : MemoryStream(octets)
    {
        public override Task CopyToAsync(Stream destination, int bufferSize, CancellationToken cancellationToken)
        {
            destination.Write([1]);
            return Task.FromException(fails);
        }
    }
}
