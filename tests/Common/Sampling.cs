using System.Runtime.CompilerServices;
using CsCheck;

namespace Spurless;

/// <summary>
/// Samples of a property by seeds that are the same in every run, so that what was green stays green until something changes. A variable
/// of CsCheck's own (<c>CsCheck_Iter</c>, <c>CsCheck_Time</c>, <c>CsCheck_Seed</c>) draws new ones instead and makes what fails smaller.
/// </summary>
/// <remarks>It stands in the namespace above the tests', where these extensions are found before the library's of the same name.</remarks>
internal static class Sampling
{
    private const int Usual = 100;

    private static readonly bool _exploring = new[] { "CsCheck_Iter", "CsCheck_Time", "CsCheck_Seed" }
        .Any(static v => Environment.GetEnvironmentVariable(v) is { Length: > 0 });

    /// <summary>Whether new seeds were asked for.</summary>
    public static bool IsExploring => _exploring;

    /// <summary>Tries the property with so many values, one seed after the other.</summary>
    public static void Sample<T>(this Gen<T> gen, Action<T> assert, int iter = Usual, [CallerMemberName] string test = "") =>
        Each(test, iter, (seed, count, threads) => Check.Sample(gen, assert, seed: seed, iter: count, threads: threads));

    /// <summary>Tries with so many values whether it holds.</summary>
    public static void Sample<T>(this Gen<T> gen, Func<T, bool> holds, int iter = Usual, [CallerMemberName] string test = "") =>
        Each(test, iter, (seed, count, threads) => Check.Sample(gen, holds, seed: seed, iter: count, threads: threads));

    /// <summary>Tries the property of two values.</summary>
    public static void Sample<T1, T2>(
        this Gen<(T1, T2)> gen, Action<T1, T2> assert, int iter = Usual, [CallerMemberName] string test = "") =>
        Each(test, iter, (seed, count, threads) => Check.Sample(gen, assert, seed: seed, iter: count, threads: threads));

    /// <summary>Tries the property of three values.</summary>
    public static void Sample<T1, T2, T3>(
        this Gen<(T1, T2, T3)> gen, Action<T1, T2, T3> assert, int iter = Usual, [CallerMemberName] string test = "") =>
        Each(test, iter, (seed, count, threads) => Check.Sample(gen, assert, seed: seed, iter: count, threads: threads));

    /// <summary>Tries the property of four values.</summary>
    public static void Sample<T1, T2, T3, T4>(
        this Gen<(T1, T2, T3, T4)> gen, Action<T1, T2, T3, T4> assert, int iter = Usual, [CallerMemberName] string test = "") =>
        Each(test, iter, (seed, count, threads) => Check.Sample(gen, assert, seed: seed, iter: count, threads: threads));

    private static void Each(string test, int iter, Action<string?, int, int> sample)
    {
        if (_exploring)
        {
            sample(null, -1, -1);
            return;
        }

        ulong name = Hash(test);
        for (uint i = 0; i < iter; i++)
        {
            sample(new PCG(i, name).ToString(), 1, 1);
        }
    }

    // FNV-1a of the test's name: string.GetHashCode differs from run to run.
    private static ulong Hash(string text)
    {
        ulong hash = 14695981039346656037;
        foreach (char c in text)
        {
            hash = (hash ^ c) * 1099511628211;
        }

        return hash;
    }
}
