using System.Buffers.Binary;
using System.Globalization;
using System.Text;

namespace Spurless.Signals.Tests.Making;

/// <summary>Writes recordings, field by field.</summary>
internal static class RecordingFiles
{
    /// <summary>A plain PCM WAV; channels are given one after another.</summary>
    public static byte[] Wav(double rate, int bits, params double[][] channels)
    {
        int width = bits / 8;
        byte[] data = new byte[channels[0].Length * channels.Length * width];
        int at = 0;
        for (int n = 0; n < channels[0].Length; n++)
        {
            foreach (double[] channel in channels)
            {
                double v = Math.Clamp(channel[n], -1, 1);
                switch (bits)
                {
                    case 8:
                        data[at] = (byte)Math.Clamp(Math.Round(128 + 127 * v), 0, 255);
                        break;
                    case 16:
                        BinaryPrimitives.WriteInt16LittleEndian(data.AsSpan(at), (short)Math.Round(32_767 * v));
                        break;
                    case 24:
                        int whole = (int)Math.Round(8_388_607 * v);
                        data[at] = (byte)whole;
                        data[at + 1] = (byte)(whole >> 8);
                        data[at + 2] = (byte)(whole >> 16);
                        break;
                    default:
                        BinaryPrimitives.WriteInt32LittleEndian(data.AsSpan(at), (int)Math.Round(2_147_483_647 * v));
                        break;
                }

                at += width;
            }
        }

        return Wav(1, rate, bits, channels.Length, data);
    }

    public static byte[] WavFloat(double rate, params double[][] channels)
    {
        byte[] data = new byte[channels[0].Length * channels.Length * 4];
        for (int n = 0; n < channels[0].Length; n++)
        {
            for (int c = 0; c < channels.Length; c++)
            {
                BinaryPrimitives.WriteSingleLittleEndian(data.AsSpan(4 * (n * channels.Length + c)), (float)channels[c][n]);
            }
        }

        return Wav(3, rate, 32, channels.Length, data);
    }

    /// <summary>A WAV of a coding with its data as they stand.</summary>
    public static byte[] Wav(int coding, double rate, int bits, int channels, byte[] data)
    {
        byte[] file = new byte[44 + data.Length];
        Encoding.ASCII.GetBytes("RIFF").CopyTo(file, 0);
        BinaryPrimitives.WriteUInt32LittleEndian(file.AsSpan(4), (uint)(36 + data.Length));
        Encoding.ASCII.GetBytes("WAVEfmt ").CopyTo(file, 8);
        BinaryPrimitives.WriteUInt32LittleEndian(file.AsSpan(16), 16);
        BinaryPrimitives.WriteUInt16LittleEndian(file.AsSpan(20), (ushort)coding);
        BinaryPrimitives.WriteUInt16LittleEndian(file.AsSpan(22), (ushort)channels);
        BinaryPrimitives.WriteUInt32LittleEndian(file.AsSpan(24), (uint)rate);
        BinaryPrimitives.WriteUInt32LittleEndian(file.AsSpan(28), (uint)(rate * channels * bits / 8));
        BinaryPrimitives.WriteUInt16LittleEndian(file.AsSpan(32), (ushort)(channels * bits / 8));
        BinaryPrimitives.WriteUInt16LittleEndian(file.AsSpan(34), (ushort)bits);
        Encoding.ASCII.GetBytes("data").CopyTo(file, 36);
        BinaryPrimitives.WriteUInt32LittleEndian(file.AsSpan(40), (uint)data.Length);
        data.CopyTo(file, 44);
        return file;
    }

    /// <summary>
    /// The two files of a SigMF recording of which only stretches were kept: a capture each, with its moment and where its first sample
    /// stood in the recorder's own count.
    /// </summary>
    public static (string Meta, byte[] Data) SigMf(
        Band band, string datatype, double centreHz, DateTimeOffset start, (double FromS, double ToS)[] kept, string description)
    {
        (_, byte[] whole) = SigMf(band, datatype, centreHz);
        int width = whole.Length / band.I.Length;
        List<byte> data = [];
        List<string> captures = [];
        foreach ((double fromS, double toS) in kept)
        {
            int first = (int)Math.Round(fromS * band.RateHz);
            string time = start.AddSeconds(fromS).ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);
            captures.Add(string.Create(
                CultureInfo.InvariantCulture,
                $"    {{ \"core:sample_start\": {data.Count / width}, \"core:global_index\": {first}, " +
                $"\"core:frequency\": {centreHz}, \"core:datetime\": \"{time}\" }}"));
            data.AddRange(whole[(first * width)..((int)Math.Round(toS * band.RateHz) * width)]);
        }

        byte[] octets = [.. data];
        string meta = string.Create(
            CultureInfo.InvariantCulture,
            $"{{\n  \"global\": {{\n    \"core:datatype\": \"{datatype}\",\n    \"core:version\": \"1.2.5\",\n" +
            $"    \"core:sample_rate\": {band.RateHz},\n    \"core:description\": \"{description}\",\n" +
            $"    \"core:sha512\": \"{Convert.ToHexStringLower(System.Security.Cryptography.SHA512.HashData(octets))}\"\n  }},\n" +
            $"  \"captures\": [\n{string.Join(",\n", captures)}\n  ],\n  \"annotations\": []\n}}\n");
        return (meta, octets);
    }

    /// <summary>The two files of a SigMF recording of 8-bit or 16-bit or float samples.</summary>
    public static (byte[] Meta, byte[] Data) SigMf(Band band, string datatype, double centreHz, string? datetime = null)
    {
        int width = datatype switch { "ci8" or "cu8" => 1, "ci16_le" => 2, "cf32_le" => 4, _ => throw new ArgumentException(datatype) };
        byte[] data = new byte[band.I.Length * 2 * width];
        for (int n = 0; n < band.I.Length; n++)
        {
            for (int c = 0; c < 2; c++)
            {
                double v = Math.Clamp(c == 0 ? band.I[n] : band.Q[n], -1, 1);
                int at = (2 * n + c) * width;
                switch (datatype)
                {
                    case "ci8":
                        data[at] = (byte)(sbyte)Math.Round(127 * v);
                        break;
                    case "cu8":
                        data[at] = (byte)Math.Round(127.5 + 127.5 * v);
                        break;
                    case "ci16_le":
                        BinaryPrimitives.WriteInt16LittleEndian(data.AsSpan(at), (short)Math.Round(32_767 * v));
                        break;
                    default:
                        BinaryPrimitives.WriteSingleLittleEndian(data.AsSpan(at), (float)v);
                        break;
                }
            }
        }

        string time = datetime is null ? "" : $", \"core:datetime\": \"{datetime}\"";
        string meta = string.Create(
            CultureInfo.InvariantCulture,
            $"{{\n  \"global\": {{ \"core:datatype\": \"{datatype}\", \"core:version\": \"1.2.5\", " +
            $"\"core:sample_rate\": {band.RateHz} }},\n" +
            $"  \"captures\": [ {{ \"core:sample_start\": 0, \"core:frequency\": {centreHz}{time} }} ],\n  \"annotations\": []\n}}\n");
        return (Encoding.UTF8.GetBytes(meta), data);
    }
}
