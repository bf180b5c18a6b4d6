using System.Runtime.InteropServices;
using System.Text;

namespace Spurless.Sites.Storage;

/// <summary>
/// The calls of the system that the runtime has no name for: what a file is, a folder's entries on the disk, two files that change places.
/// </summary>
internal static class NativeMethods
{
    /// <summary>A path as the C library takes it.</summary>
    internal static byte[] PathOf(string path) => Encoding.UTF8.GetBytes(path + '\0');

    /// <summary>Lets two files change places in one step.</summary>
    /// <returns>False where one of them is missing, or the system or the disk does not know how.</returns>
    internal static bool TryExchange(string one, string other)
    {
        if (!OperatingSystem.IsLinux())
        {
            return false;
        }

        const int HereAbove = -100;
        const uint Exchange = 2;
        try
        {
            return Rename(HereAbove, PathOf(one), HereAbove, PathOf(other), Exchange) == 0;
        }
        catch (Exception e) when (e is EntryPointNotFoundException or DllNotFoundException)
        {
            return false; // a C library older than the call
        }
    }

    [DllImport("libc", EntryPoint = "renameat2")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Rename(int folder, byte[] path, int otherFolder, byte[] otherPath, uint flags);

    [DllImport("libc", EntryPoint = "statx")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    internal static extern int Statx(int folder, byte[] path, int flags, uint mask, [Out] byte[] answer);

    [DllImport("libc", EntryPoint = "open")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    internal static extern int Open(byte[] path, int flags);

    [DllImport("libc", EntryPoint = "fsync")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    internal static extern int Fsync(int descriptor);

    [DllImport("libc", EntryPoint = "close")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    internal static extern int Close(int descriptor);
}
