using CsCheck;

namespace Spurless.Files.Tests;

/// <summary>Random choices.</summary>
internal static class Pick
{
    /// <summary>One of these, each as likely as the others.</summary>
    public static Gen<T> From<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);
}
