using System.Globalization;

namespace Spurless.Drawing.Maps;

/// <summary>What kind of service a mark stands for: told apart by shape, never by colour alone.</summary>
public enum AroundService
{
    /// <summary>Land mobile and whatever is not one of the others: a disc.</summary>
    LandMobile,

    /// <summary>Paging: a square.</summary>
    Paging,

    /// <summary>Broadcast: a wide bar.</summary>
    Broadcast,

    /// <summary>Repeaters: half a disc.</summary>
    Repeater,

    /// <summary>Trunked and other wide digital: a ring.</summary>
    Trunked,

    /// <summary>Aviation: a dart.</summary>
    Aviation,
}

/// <summary>One transmitter on the map.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Service">Its service.</param>
/// <param name="BearingDegrees">Bearing from the site.</param>
/// <param name="DistanceM">Distance in metres.</param>
/// <param name="LevelDbm">Its level; null where unknown.</param>
/// <param name="InSite">Whether the site file has it.</param>
/// <param name="Picked">Whether it is the chosen one.</param>
public sealed record AroundMark(
    string Name, AroundService Service, double BearingDegrees, double DistanceM, double? LevelDbm, bool InSite, bool Picked);

/// <summary>A word on the map.</summary>
/// <param name="Text">The word.</param>
/// <param name="X">Where it begins, or ends.</param>
/// <param name="Y">Its base line.</param>
/// <param name="AtEnd">Whether it ends at X.</param>
/// <param name="Picked">Whether it is the chosen one's.</param>
public sealed record AroundWord(string Text, double X, double Y, bool AtEnd, bool Picked)
{
    /// <summary>The space it takes: left, top, right, bottom.</summary>
    public (double Left, double Top, double Right, double Bottom) Box
    {
        get
        {
            double width = AroundScene.WidthOf(Text);
            double left = AtEnd ? X - width : X;
            return (left, Y - 10, left + width, Y + 3);
        }
    }
}

/// <summary>The map round a site: bearing clockwise from north, distance on a logarithmic scale from 0.3 to 100 km.</summary>
public sealed class AroundScene
{
    private const double LeastM = 300;
    private const double MostM = 100_000;
    private const double CharacterWidth = 6.4;
    private static readonly int[] Kilometres = [1, 3, 10, 30];

    /// <summary>Lays a map out.</summary>
    /// <param name="marks">The transmitters, strongest first.</param>
    /// <param name="size">Width and height in pixels.</param>
    public AroundScene(IReadOnlyList<AroundMark> marks, double size)
    {
        ArgumentNullException.ThrowIfNull(marks);
        (Size, Marks) = (size, marks);
        Centre = size / 2;
        Radius = Centre - 20;
        List<(double Left, double Top, double Right, double Bottom)> taken =
        [
            .. Marks.Select(m => (At(m), ReachOf(m) + 1)).Select(static m =>
                (m.Item1.X - m.Item2, m.Item1.Y - m.Item2, m.Item1.X + m.Item2, m.Item1.Y + m.Item2)),
            (Centre - 6, 0, Centre + 6, 18), (Centre - 6, Size - 18, Centre + 6, Size),
            (0, Centre - 9, 18, Centre + 9), (Size - 18, Centre - 9, Size, Centre + 9),
        ];
        Words = Place(taken);
        Scale = PlaceScale(taken);
    }

    /// <summary>Width and height in pixels.</summary>
    public double Size { get; }

    /// <summary>The middle.</summary>
    public double Centre { get; }

    /// <summary>Radius of 100 km.</summary>
    public double Radius { get; }

    /// <summary>The transmitters.</summary>
    public IReadOnlyList<AroundMark> Marks { get; }

    /// <summary>The words that found a place; the list beside has all.</summary>
    public IReadOnlyList<AroundWord> Words { get; }

    /// <summary>The rings: radii in pixels.</summary>
    public IEnumerable<double> Rings => Kilometres.Select(km => RadiusOf(km * 1000.0));

    /// <summary>The rings' distances, each on its ring where nothing else stands; one that finds no place is left out.</summary>
    public IReadOnlyList<AroundWord> Scale { get; }

    /// <summary>Width of a word in pixels, rather too wide than too narrow.</summary>
    public static double WidthOf(string text) => CharacterWidth * (text?.Length ?? 0);

    /// <summary>How far out a distance lies, in pixels.</summary>
    public double RadiusOf(double metres) =>
        Radius * Math.Log(Math.Clamp(metres, LeastM, MostM) / LeastM) / Math.Log(MostM / LeastM);

    /// <summary>Where a mark lies.</summary>
    public (double X, double Y) At(AroundMark mark)
    {
        ArgumentNullException.ThrowIfNull(mark);
        (double sin, double cos) = Math.SinCos(mark.BearingDegrees * (Math.PI / 180));
        double r = RadiusOf(mark.DistanceM);
        return (Centre + (r * sin), Centre - (r * cos));
    }

    /// <summary>Half the size of a mark: larger to -45, to -30 and over -30 dBm.</summary>
    public static double SizeOf(AroundMark mark) => mark?.LevelDbm switch
    {
        > -30 => 6.5,
        > -45 => 5.2,
        _ => 4,
    };

    /// <summary>How far a mark's outline reaches from its middle.</summary>
    private static double ReachOf(AroundMark mark) =>
        SizeOf(mark) * mark.Service switch { AroundService.Broadcast => 1.6, AroundService.Aviation => 1.5, _ => 1 };

    /// <summary>Outline of a mark about the origin.</summary>
    public static string Outline(AroundService service, double half)
    {
        string F(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
        string h = F(half);
        return service switch
        {
            AroundService.Paging => $"M-{h} -{h}H{h}V{h}H-{h}Z",
            AroundService.Broadcast => $"M-{F(1.6 * half)} -{F(0.6 * half)}H{F(1.6 * half)}V{F(0.6 * half)}H-{F(1.6 * half)}Z",
            AroundService.Repeater => $"M-{h} {F(half / 2)}A{h} {h} 0 0 1 {h} {F(half / 2)}Z",
            AroundService.Aviation => $"M-{h} -{F(half / 2)}L0 {F(half / 4)}L{h} -{F(half / 2)}L0 {F(1.5 * half)}Z",
            AroundService.Trunked =>
                $"M-{h} 0A{h} {h} 0 1 1 {h} 0A{h} {h} 0 1 1 -{h} 0ZM-{F(0.45 * half)} 0A{F(0.45 * half)} {F(0.45 * half)} 0 1 0 " +
                $"{F(0.45 * half)} 0A{F(0.45 * half)} {F(0.45 * half)} 0 1 0 -{F(0.45 * half)} 0Z",
            _ => $"M-{h} 0A{h} {h} 0 1 1 {h} 0A{h} {h} 0 1 1 -{h} 0Z",
        };
    }

    /// <summary>
    /// Each mark's word right of it, left, under, over or aslant of it, the chosen one's first, then by level; a word that meets another,
    /// a mark or the outermost ring is left out.
    /// </summary>
    private List<AroundWord> Place(List<(double Left, double Top, double Right, double Bottom)> taken)
    {
        List<AroundWord> words = [];
        foreach (AroundMark mark in Marks.OrderByDescending(static m => m.Picked))
        {
            (double x, double y) = At(mark);
            double reach = ReachOf(mark);
            double half = reach + 4;
            double middle = WidthOf(mark.Name) / 2;
            AroundWord[] tries =
            [
                new(mark.Name, x + half, y + 4, false, mark.Picked), new(mark.Name, x - half, y + 4, true, mark.Picked),
                new(mark.Name, x - middle, y + reach + 12, false, mark.Picked),
                new(mark.Name, x - middle, y - reach - 5, false, mark.Picked),
                .. new[] { y + reach + 8, y - reach - 1 }.SelectMany(aside => new AroundWord[]
                {
                    new(mark.Name, x + reach, aside, false, mark.Picked), new(mark.Name, x - reach, aside, true, mark.Picked),
                }),
            ];
            if (tries.FirstOrDefault(w => IsFree(w, taken)) is { } free)
            {
                words.Add(free);
                taken.Add(free.Box);
            }
        }

        return words;
    }

    /// <summary>Words of the scale come last: each goes round its ring until it finds a place.</summary>
    private List<AroundWord> PlaceScale(List<(double Left, double Top, double Right, double Bottom)> taken)
    {
        List<AroundWord> words = [];
        foreach (int km in Kilometres)
        {
            string text = string.Create(CultureInfo.InvariantCulture, $"{km} km");
            double r = RadiusOf(km * 1000.0);
            AroundWord? free = Enumerable.Range(0, 24).Select(i => Math.SinCos(i * Math.PI / 12))
                .Select(d => new AroundWord(text, Centre + (r * d.Sin) - (WidthOf(text) / 2), Centre - (r * d.Cos) + 4, false, false))
                .FirstOrDefault(w => IsFree(w, taken));
            if (free is not null)
            {
                words.Add(free);
                taken.Add(free.Box);
            }
        }

        return words;
    }

    private bool IsFree(AroundWord word, List<(double Left, double Top, double Right, double Bottom)> taken)
    {
        (double left, double top, double right, double bottom) = word.Box;
        double corner = Math.Max(Math.Abs(left - Centre), Math.Abs(right - Centre));
        double height = Math.Max(Math.Abs(top - Centre), Math.Abs(bottom - Centre));
        return Math.Sqrt((corner * corner) + (height * height)) < Radius
            && !taken.Exists(t => t.Left < right && left < t.Right && t.Top < bottom && top < t.Bottom);
    }
}
