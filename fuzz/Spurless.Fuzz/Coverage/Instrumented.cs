using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using SharpFuzz;

namespace Spurless.Fuzz.Coverage;

/// <summary>A copy of the program whose readers count the edges they take.</summary>
internal static class Instrumented
{
    /// <summary>Rooms that do arithmetic on what was read: to count there would slow it and tells nothing of reading.</summary>
    private static readonly string[] Kernels =
    [
        "Spurless.Numerics", "Spurless.Mixing", "Spurless.Design", "Spurless.Drawing", "Spurless.Fuzz", "Spurless.Circuits.Solving",
        "Spurless.Circuits.Response", "Spurless.Signals.Dsp", "Spurless.Signals.Recognition", "Spurless.Signals.Listening",
    ];

    /// <summary>The copy of what lies beside this program, made where there is none of this very build.</summary>
    /// <returns>The copy of this program's own file.</returns>
    public static string Program()
    {
        string here = AppContext.BaseDirectory;
        string[] files = [.. Directory.GetFiles(here).Order(StringComparer.Ordinal)];
        string folder = Places.Kept("instrumented-" + Stamp(files));
        string program = Path.Combine(folder, "Spurless.Fuzz.dll");
        if (!File.Exists(program))
        {
            string making = folder + "." + Environment.ProcessId.ToString(CultureInfo.InvariantCulture);
            Make(here, files, making);
            try
            {
                Directory.Move(making, folder);
            }
            catch (IOException) when (File.Exists(program))
            {
                Directory.Delete(making, recursive: true); // another run was faster
            }
        }

        return program;
    }

    private static void Make(string here, string[] files, string folder)
    {
        Directory.CreateDirectory(folder);
        foreach (string file in files.Where(static f => Path.GetExtension(f) is ".dll" or ".json"))
        {
            File.Copy(file, Path.Combine(folder, Path.GetFileName(file)));
        }

        string runtimes = Path.Combine(here, "runtimes");
        foreach (string file in Directory.Exists(runtimes) ? Directory.GetFiles(runtimes, "*", SearchOption.AllDirectories) : [])
        {
            string copy = Path.Combine(folder, Path.GetRelativePath(here, file));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(file, copy);
        }

        foreach (string file in Directory.GetFiles(folder, "*purless*.dll")
            .Where(static f => !IsKernel(Path.GetFileNameWithoutExtension(f))))
        {
            _ = Fuzzer.Instrument(file, static type => !IsKernel(type), Options.Value);
        }
    }

    private static bool IsKernel(string name) => Kernels.Any(k => name.StartsWith(k, StringComparison.Ordinal));

    private static string Stamp(string[] files)
    {
        StringBuilder all = new();
        foreach (string file in files.Where(static f => f.EndsWith(".dll", StringComparison.Ordinal)))
        {
            FileInfo info = new(file);
            all.Append(CultureInfo.InvariantCulture, $"{info.Name} {info.Length} {info.LastWriteTimeUtc.Ticks}\n");
        }

        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(all.ToString())))[..16];
    }
}
