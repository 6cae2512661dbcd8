using System.Buffers.Binary;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace ServiceRules.Application.Demo;

/// <summary>
/// A repeatable stream of chance for one purpose: SHA-256 over the seed, the purpose and a counter. The platform's own
/// seeded generator is not promised to stay the same from version to version; a hash is. Each job draws from a stream
/// of its own, so that one more draw in one job changes nothing in any other.
/// </summary>
internal sealed class Chance
{
    private const int Grain = 1_000;

    private readonly string purpose;
    private byte[] block = [];
    private int used;
    private int blocks;

    private Chance(string purpose) => this.purpose = purpose;

    public static Chance For(int seed, string purpose) =>
        new(string.Create(CultureInfo.InvariantCulture, $"{seed}|{purpose}"));

    /// <summary>A whole number between two, both included, each as likely.</summary>
    public int Between(int least, int most) => least + (int)(Next() % (uint)(most - least + 1));

    /// <summary>True once in so many times.</summary>
    public bool OneIn(int times) => Between(1, times) == 1;

    /// <summary>A figure between two.</summary>
    public decimal Between(decimal least, decimal most) =>
        least + ((most - least) * Between(0, Grain) / Grain);

    /// <summary>Noise about zero, never beyond the spread, mostly well within it.</summary>
    public decimal Noise(decimal spread) =>
        spread * (Between(-Grain, Grain) + Between(-Grain, Grain) + Between(-Grain, Grain)) / (3 * Grain);

    /// <summary>One of several, each as likely.</summary>
    public T Of<T>(IReadOnlyList<T> several) => several[Between(0, several.Count - 1)];

    private uint Next()
    {
        if (used == block.Length)
        {
            block = SHA256.HashData(
                Encoding.UTF8.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{purpose}|{blocks}"))
            );
            blocks++;
            used = 0;
        }

        var next = BinaryPrimitives.ReadUInt32BigEndian(block.AsSpan(used));
        used += sizeof(uint);
        return next;
    }
}
