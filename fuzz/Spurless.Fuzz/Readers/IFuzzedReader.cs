using Spurless.Fuzz.Inputs;

namespace Spurless.Fuzz.Readers;

/// <summary>
/// A reader of the program as it is fuzzed. A new one joins by a class in this folder: it is found by itself, runs in <c>fuzz/run</c> and
/// in <c>./test --long</c>, and takes its further examples from <c>fuzz/corpus/NAME</c>.
/// </summary>
internal interface IFuzzedReader
{
    /// <summary>Its name in the table: what is read, in small letters.</summary>
    string Name { get; }

    /// <summary>How its inputs are built.</summary>
    Family Family { get; }

    /// <summary>At least one example to begin with.</summary>
    IEnumerable<byte[]> Examples { get; }

    /// <summary>Reads an input. Whatever it holds, no exception may leave here.</summary>
    /// <param name="input">Not changed.</param>
    void Read(byte[] input);
}
