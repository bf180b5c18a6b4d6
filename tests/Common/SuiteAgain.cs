using System.Diagnostics;
using System.Runtime.Intrinsics.X86;

namespace Spurless.Tests.Common;

/// <summary>A test project's whole suite once more, in a process that may not use some of the processor's vector instructions.</summary>
internal static class SuiteAgain
{
    /// <summary>Runs it and throws where a test of it fails.</summary>
    /// <param name="assembly">The test project, which is a program of its own.</param>
    /// <param name="switches">The runtime's switches, such as <c>DOTNET_EnableAVX2</c>, that are set to 0.</param>
    /// <param name="cancellationToken">Ends the waiting.</param>
    public static async Task AssertPassesWithoutAsync(string assembly, string[] switches, CancellationToken cancellationToken)
    {
        ProcessStartInfo start = new("dotnet", [assembly, "-trait-", "Category=Long", "-noColor", "-noLogo", "-noAutoReporters"])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        foreach (string name in switches)
        {
            start.Environment[name] = "0";
        }

        using Process child = Process.Start(start)!;
        Task<string> errors = child.StandardError.ReadToEndAsync(cancellationToken);
        string output = await child.StandardOutput.ReadToEndAsync(cancellationToken);
        await child.WaitForExitAsync(cancellationToken);
        Assert.True(child.ExitCode == 0, output + await errors);
        Assert.Contains("Failed: 0", output, StringComparison.Ordinal);
        Assert.DoesNotContain("Total: 0", output, StringComparison.Ordinal);
    }

    /// <summary>
    /// What the runtime uses is what the processor has, less what was switched off: so a suite run without an instruction was really run
    /// without it, and the usual one with it. Oracle: the flags that Linux tells of the processor, and the switches themselves.
    /// </summary>
    public static void AssertInstructionsAreThoseAllowed()
    {
        bool no256 = IsOff("DOTNET_EnableHWIntrinsic") || IsOff("DOTNET_EnableAVX") || IsOff("DOTNET_EnableAVX2");
        bool no512 = no256 || IsOff("DOTNET_EnableAVX512");
        string[]? flags = Flags();
        Assert.Equal(!no256 && (flags?.Contains("avx2") ?? Avx2.IsSupported), Avx2.IsSupported);
        Assert.Equal(!no512 && (flags?.Contains("avx512vl") ?? Avx512F.IsSupported), Avx512F.IsSupported);
    }

    private static bool IsOff(string name) => Environment.GetEnvironmentVariable(name) == "0";

    /// <summary>The processor's flags as Linux tells them; null on other systems.</summary>
    private static string[]? Flags() => !File.Exists("/proc/cpuinfo")
        ? null
        : File.ReadLines("/proc/cpuinfo").FirstOrDefault(static l => l.StartsWith("flags", StringComparison.Ordinal))?.Split(' ');
}
