using System.Globalization;
using Spurless.Mixing.Screening;

namespace Spurless.Bench.Registers;

/// <summary><c>--make-register FOLDER</c>: writes the invented country's register files, and receivers, for measuring commands.</summary>
internal static class MakeRegister
{
    private const int UsualRows = 1_500_000;
    private const int UsualReceivers = 200_000;

    public static int Run(string[] args, TextWriter output, TextWriter error)
    {
        string? folder = Value(args, "--make-register");
        if (folder is null
            || !TryCount(args, "--rows", UsualRows, out int rows)
            || !TryCount(args, "--receivers", UsualReceivers, out int receivers))
        {
            error.WriteLine("write --make-register FOLDER, and --rows and --receivers with whole numbers of 1 to 10000000");
            return 2;
        }

        Country country = new(rows, 1);
        string register = Directory.CreateDirectory(Path.Combine(folder, "register")).FullName;
        country.WritePublicAccess(register);
        WriteReceivers(Path.Combine(folder, "receivers.csv"), country.Receivers(receivers));
        output.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{rows} frequency rows in register, {receivers} receivers in receivers.csv: spurless register import register --into C.db"));
        return 0;
    }

    private static void WriteReceivers(string path, ScreenReceiver[] receivers)
    {
        using StreamWriter to = new(path) { NewLine = "\n" };
        to.WriteLine("name,latitude,longitude,ground,frequency,channel,noise_figure,iip3,antenna.gain,antenna.height");
        for (int i = 0; i < receivers.Length; i++)
        {
            ScreenReceiver r = receivers[i];
            to.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"r{i},{r.Place.LatitudeDegrees:0.00000},{r.Place.LongitudeDegrees:0.00000},{r.GroundM:0.0} m,"
                    + $"{r.FrequencyHz / 1e6:0.######} MHz,12.5 kHz,6 dB,{2 + (3 * (i % 4))} dBm,2.15 dBi,20 m"));
        }
    }

    private static bool TryCount(string[] args, string name, int usual, out int count)
    {
        count = usual;
        return !args.Contains(name)
            || (int.TryParse(Value(args, name), NumberStyles.None, CultureInfo.InvariantCulture, out count)
                && count is >= 1 and <= 10_000_000);
    }

    private static string? Value(string[] args, string name)
    {
        int at = Array.IndexOf(args, name);
        return at >= 0 && at + 1 < args.Length ? args[at + 1] : null;
    }
}
