namespace Spurless.Sites.Storage;

/// <summary>What a path leads to, links followed.</summary>
/// <param name="IsRegular">Whether it is a file with contents: no folder, pipe, device or socket, on which a reading may wait for
/// ever.</param>
/// <param name="Names">How many names (hard links) it has.</param>
/// <param name="Owner">Its owner's number.</param>
/// <param name="Group">Its group's number.</param>
public readonly record struct FileFacts(bool IsRegular, uint Names, uint Owner, uint Group)
{
    // The layout of the answer is that of the kernel's statx, the same on every processor: names at 16, owner 20, group 24, mode 28.
    private const int Answer = 256;

    /// <summary>The facts of a file; null where there is none, and where the system is not Linux.</summary>
    public static FileFacts? Of(string path)
    {
        if (!OperatingSystem.IsLinux())
        {
            return null;
        }

        byte[] answer = new byte[Answer];
        try
        {
            const int HereAbove = -100;
            const uint Basic = 0x7FF;
            if (NativeMethods.Statx(HereAbove, NativeMethods.PathOf(path), 0, Basic, answer) != 0)
            {
                return null;
            }
        }
        catch (Exception e) when (e is EntryPointNotFoundException or DllNotFoundException)
        {
            return null; // a C library older than the call
        }

        const int Kind = 0xF000;
        const int Regular = 0x8000;
        return new FileFacts(
            (BitConverter.ToUInt16(answer, 28) & Kind) == Regular,
            BitConverter.ToUInt32(answer, 16),
            BitConverter.ToUInt32(answer, 20),
            BitConverter.ToUInt32(answer, 24));
    }

    /// <summary>Whether a path leads to a file that can be read to its end.</summary>
    public static bool IsFile(string path) => OperatingSystem.IsLinux() && Of(path) is { } facts ? facts.IsRegular : File.Exists(path);
}
