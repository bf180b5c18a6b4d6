using System.Diagnostics;
using System.Globalization;
using System.Security.Cryptography;
using Spurless.Fuzz.Coverage;
using Spurless.Fuzz.Inputs;
using Spurless.Fuzz.Readers;

namespace Spurless.Fuzz.Running;

/// <summary>
/// Reads changed inputs one after another in this process. An input that takes a new path is kept and changed further; every fiftieth is
/// made by the generators of <see cref="Shapes"/>.
/// </summary>
internal sealed class ReaderRun : IDisposable
{
    /// <summary>Status of a process that ended itself because an input had no end.</summary>
    public const int Endless = 70;

    /// <summary>Processor time from which an input counts as a hang, in seconds.</summary>
    public const double HangS = 2;

    private const double GivenUpS = 20;
    private const int MostKept = 4000;
    private const int MostKeptBytes = 24 << 20;
    private const int MostFound = 20;

    private readonly IFuzzedReader _reader;
    private readonly TraceMap _map = new();
    private readonly CurrentInput _current;
    private readonly List<byte[]> _kept;
    private readonly List<string> _found = [];
    private readonly HashSet<string> _known = [];
    private readonly Random _random;
    private readonly Mutator _mutator;
    private readonly Shapes _shapes;
    private readonly Timer _watch;
    private long _keptBytes;
    private TimeSpan _began = TimeSpan.MaxValue;
    private ReaderReport _report;

    /// <summary>A run.</summary>
    /// <param name="reader">What reads.</param>
    /// <param name="seed">Decides the changes.</param>
    /// <param name="current">Where the input that is being read is told.</param>
    public ReaderRun(IFuzzedReader reader, int seed, string current)
    {
        _reader = reader;
        _random = new Random(seed);
        IReadOnlyList<byte[]> examples = Reading.Examples(reader);
        _kept = [.. examples];
        _keptBytes = examples.Sum(static e => (long)e.Length);
        _mutator = new Mutator(_random, examples);
        _shapes = new Shapes(_random, reader.Family, examples);
        _current = new CurrentInput(current);
        _report = new ReaderReport { Reader = reader.Name };
        _watch = new Timer(Look, null, 1000, 1000);
    }

    /// <summary>Inputs that were kept because they took a new path, examples first.</summary>
    public IReadOnlyList<byte[]> Kept => _kept;

    /// <summary>Runs until as many inputs were read, or as much processor time is used.</summary>
    public ReaderReport Run(long inputs, double seconds)
    {
        foreach (byte[] example in _kept.ToArray())
        {
            // Once for what the runtime compiles and initialises, once for what it does.
            Read(example, counts: false);
            Read(example, counts: true);
        }

        TimeSpan begin = Environment.CpuUsage.TotalTime;
        for (long i = 0; i < inputs && (Environment.CpuUsage.TotalTime - begin).TotalSeconds < seconds; i++)
        {
            byte[] input = i % 50 == 49 ? _shapes.Make() : _mutator.Change(Parent(), Parent());
            if (Read(input, counts: true) && _kept.Count < MostKept && _keptBytes + input.Length < MostKeptBytes)
            {
                _kept.Add(input);
                _keptBytes += input.Length;
            }
        }

        using Process self = Process.GetCurrentProcess();
        return _report with
        {
            Edges = _map.Edges,
            ProcessorS = Environment.CpuUsage.TotalTime.TotalSeconds,
            Peak = self.PeakWorkingSet64,
            Found = _found,
        };
    }

    /// <summary>Writes what was found, under a name made of its content.</summary>
    public static string Keep(string reader, string kind, byte[] input)
    {
        string folder = Directory.CreateDirectory(Places.Kept("found", reader)).FullName;
        string file = Path.Combine(folder, kind + "-" + Convert.ToHexStringLower(SHA256.HashData(input))[..12]);
        File.WriteAllBytes(file, input);
        return Path.GetRelativePath(Places.Root, file);
    }

    public void Dispose()
    {
        _watch.Dispose();
        _current.Dispose();
        _map.Dispose();
    }

    // Half of the time one of those found last: what is new is changed first.
    private byte[] Parent() => _random.Next(2) == 0 && _kept.Count > 16
        ? _kept[^(1 + _random.Next(_kept.Count / 4))]
        : _kept[_random.Next(_kept.Count)];

    private bool Read(byte[] input, bool counts)
    {
        _current.Is(input);
        _map.Clear();
        long allocated = GC.GetAllocatedBytesForCurrentThread();
        TimeSpan begin = Environment.CpuUsage.TotalTime;
        _began = begin;
        string? problem = Problem(input);
        _began = TimeSpan.MaxValue;
        double ms = (Environment.CpuUsage.TotalTime - begin).TotalMilliseconds;
        bool news = _map.Take();
        if (!counts)
        {
            return false;
        }

        if (ms > HangS * 1000)
        {
            // Once more: the first time may have been the compiler's.
            begin = Environment.CpuUsage.TotalTime;
            problem ??= Problem(input);
            ms = Math.Min(ms, (Environment.CpuUsage.TotalTime - begin).TotalMilliseconds);
        }

        bool hang = ms > HangS * 1000;
        _report = _report with
        {
            Inputs = _report.Inputs + 1,
            Paths = _report.Paths + (news ? 1 : 0),
            SlowestMs = Math.Max(_report.SlowestMs, ms),
            MostAllocated = Math.Max(_report.MostAllocated, GC.GetAllocatedBytesForCurrentThread() - allocated - 10L * input.Length),
            Crashes = _report.Crashes + (problem is null ? 0 : 1),
            Hangs = _report.Hangs + (hang ? 1 : 0),
        };
        Tell(problem ?? (hang ? string.Create(CultureInfo.InvariantCulture, $"{ms / 1000:0.0} s of processor time") : null), input);
        return news;
    }

    private string? Problem(byte[] input)
    {
        try
        {
            _reader.Read(input);
            return null;
        }
        catch (Exception e)
        {
            string where = e.StackTrace?.Split('\n').Select(static l => l.Trim()).FirstOrDefault(static l =>
                l.StartsWith("at Spurless.", StringComparison.Ordinal) && !l.Contains("Spurless.Fuzz", StringComparison.Ordinal)) ?? "";
            return $"{e.GetType().Name}: {e.Message.ReplaceLineEndings(" ")} {where}";
        }
    }

    private void Tell(string? problem, byte[] input)
    {
        // One of a kind: kinds are told apart by their words without the digits.
        if (problem is not null && _found.Count < MostFound
            && _known.Add(new string([.. problem.Where(static c => !char.IsAsciiDigit(c)).Take(60)])))
        {
            _found.Add($"{problem} [{Keep(_reader.Name, "crash", input)}]");
        }
    }

    private void Look(object? state)
    {
        TimeSpan began = _began;
        if (began != TimeSpan.MaxValue && (Environment.CpuUsage.TotalTime - began).TotalSeconds > GivenUpS)
        {
            Environment.Exit(Endless);
        }
    }
}
