using System.Text;
using Spurless.Fuzz.Inputs;
using Spurless.Fuzz.Readers;
using Spurless.Fuzz.Running;

namespace Spurless.Fuzz.Tests;

/// <summary>The harness finds what it is there to find.</summary>
public class HarnessTests
{
    private static ReaderReport Run(Action<byte[]> read, int inputs = 2000)
    {
        string current = Path.Combine(Path.GetTempPath(), "spurless-fuzz-" + Path.GetRandomFileName());
        try
        {
            using ReaderRun run = new(new Fake(read), 1, current);
            return run.Run(inputs, 60);
        }
        finally
        {
            CurrentInput.Forget(current);
        }
    }

    [Fact]
    public void Command_names_the_readers_where_it_was_given_none_of_them_and_starts_nothing()
    {
        StringWriter told = new();
        Assert.Equal(2, ReadersCommand.Run(["site", "sight", "circus"], told));
        Assert.StartsWith("no reader 'sight', 'circus'; there are bypass relay, circuit, ", told.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain("inputs", told.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Run_counts_an_exception_and_keeps_the_input_that_raised_it()
    {
        ReaderReport report = Run(static input =>
        {
            if (Encoding.UTF8.GetString(input).Contains("NaN", StringComparison.Ordinal))
            {
                throw new InvalidOperationException("a number that is none");
            }
        });

        Assert.True(report.Crashes > 0);
        string found = Assert.Single(report.Found);
        Assert.Contains("a number that is none", found, StringComparison.Ordinal);
        string file = Places.Of(found[(found.IndexOf('[', StringComparison.Ordinal) + 1)..^1]);
        Assert.Contains("NaN", File.ReadAllText(file), StringComparison.Ordinal);
    }

    [Fact]
    public void Run_counts_an_input_that_takes_too_long()
    {
        ReaderReport report = Run(static input =>
        {
            long end = (long)(Environment.CpuUsage.TotalTime.TotalMilliseconds + ReaderRun.HangS * 1000 + 300);
            while (input.Length > 2000 && Environment.CpuUsage.TotalTime.TotalMilliseconds < end)
            {
                Thread.SpinWait(1000);
            }
        }, inputs: 120);

        Assert.True(report.Hangs > 0, $"{report.SlowestMs} ms");
        Assert.Equal(0, report.Crashes);
    }

    [Fact]
    public void Run_of_a_reader_without_fault_is_clean()
    {
        ReaderReport report = Run(static _ => { });

        Assert.True(report.IsClean);
        Assert.Equal(2001, report.Inputs);
    }

    [Fact]
    public void Change_with_the_same_seed_makes_the_same_inputs_of_bounded_length()
    {
        byte[][] examples = ["a: 1\nb: [2, 3]\n"u8.ToArray(), "c: 4.5 MHz\n"u8.ToArray()];
        byte[][] Made(int seed)
        {
            Mutator mutator = new(new Random(seed), examples);
            return [.. Enumerable.Range(0, 3000).Select(_ => mutator.Change(examples[0], examples[1]))];
        }

        Assert.Equal(Made(1), Made(1));
        Assert.NotEqual(Made(1), Made(2));
        Assert.All(Made(3), static m => Assert.InRange(m.Length, 0, Mutator.Longest));
        Assert.True(Made(4).Distinct(Bytes.Equal).Count() > 2000);
    }

    [Fact]
    public void Change_reaches_the_longest_input_and_not_beyond()
    {
        byte[] large = [.. Enumerable.Repeat((byte)'x', 3 * Mutator.Longest)];
        Mutator mutator = new(new Random(1), [large]);

        Assert.Equal(Mutator.Longest, Enumerable.Range(0, 200).Max(_ => mutator.Change(large, large).Length));
    }

    [Theory]
    [InlineData((int)Family.Yaml)]
    [InlineData((int)Family.Table)]
    [InlineData((int)Family.Lines)]
    [InlineData((int)Family.Binary)]
    public void Make_gives_small_and_large_inputs(int family)
    {
        Shapes shapes = new(new Random(1), (Family)family, ["a: 1\nb: 2\n"u8.ToArray()]);
        int[] sizes = [.. Enumerable.Range(0, 400).Select(_ => shapes.Make().Length)];

        Assert.True(sizes.Min() < 1000);
        Assert.InRange(sizes.Max(), 100_000, Shapes.Largest);
    }

    [Fact]
    public void Split_gives_back_what_was_joined()
    {
        byte[] joined = Parts.Join("one\n", "", "three");

        Assert.Equal(["one\n", "", "three"], Parts.Split(joined, 3).Select(Encoding.UTF8.GetString));
        Assert.Equal(["one\n", "\n=====\nthree"], Parts.Split(joined, 2).Select(Encoding.UTF8.GetString));
        Assert.Equal(["x", "", ""], Parts.Split("x"u8.ToArray(), 3).Select(Encoding.UTF8.GetString));
    }

    [Fact]
    public void Current_input_is_found_after_its_writer_is_gone()
    {
        string path = Path.Combine(Path.GetTempPath(), "spurless-fuzz-" + Path.GetRandomFileName());
        using (CurrentInput current = new(path))
        {
            current.Is("a longer one"u8.ToArray());
            current.Is("last"u8.ToArray());
        }

        Assert.Equal("last", Encoding.UTF8.GetString(CurrentInput.Of(path)));
        CurrentInput.Forget(path);
        Assert.Empty(CurrentInput.Of(path));
    }

    private sealed class Fake(Action<byte[]> read) : IFuzzedReader
    {
        public string Name => "a test's own";

        public Family Family => Family.Yaml;

        public IEnumerable<byte[]> Examples => ["a: 1\nb: 2\n"u8.ToArray()];

        public void Read(byte[] input) => read(input);
    }

    private sealed class Bytes : IEqualityComparer<byte[]>
    {
        public static Bytes Equal { get; } = new();

        public bool Equals(byte[]? x, byte[]? y) => x.AsSpan().SequenceEqual(y);

        public int GetHashCode(byte[] obj) => obj.Length;
    }
}
