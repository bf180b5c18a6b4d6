using Spurless.Fuzz.Inputs;
using Spurless.Fuzz.Readers;

namespace Spurless.Fuzz.Tests;

public class ReaderTests
{
    private const int Changed = 150;

    public static TheoryData<string> Names => [.. Reading.All.Select(static r => r.Name)];

    [Fact]
    public void Readers_are_found_by_themselves_and_named_once() =>
        Assert.Equal(Reading.All.Count, Reading.All.Select(static r => r.Name).Distinct(StringComparer.Ordinal).Count());

    [Fact]
    public void Corpus_has_no_folder_of_a_reader_that_is_gone()
    {
        string corpus = Places.Of("fuzz", "corpus");
        Assert.All(Directory.Exists(corpus) ? Directory.GetDirectories(corpus) : [],
            static f => Assert.Contains(Path.GetFileName(f), Reading.All.Select(static r => r.Name)));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Read_of_the_corpus_and_of_changed_examples_keeps_the_rules(string name)
    {
        IFuzzedReader reader = Reading.All.Single(r => r.Name == name);
        IReadOnlyList<byte[]> examples = Reading.Examples(reader);
        Random random = new(4);
        Mutator mutator = new(random, examples);
        byte[] Any() => examples[random.Next(examples.Count)];

        Assert.NotEmpty(examples);
        Assert.All(examples, e => reader.Read(e));
        Assert.All(Enumerable.Range(0, Changed), _ => reader.Read(mutator.Change(Any(), Any())));
    }
}
