using System.Buffers.Binary;

namespace ServiceRules.Evidence.Log;

/// <summary>Cosignature v1 of C2SP tlog-cosignature: eight bytes of time, then Ed25519 over time and checkpoint.</summary>
internal static class Cosignature
{
    private const int TimeBytes = sizeof(long);

    public static byte[] Make(byte[] seed, string checkpoint, DateTimeOffset at)
    {
        var seconds = at.ToUnixTimeSeconds();
        ArgumentOutOfRangeException.ThrowIfNegative(seconds, nameof(at));
        var bytes = new byte[TimeBytes + Ed25519.SignatureBytes];
        BinaryPrimitives.WriteInt64BigEndian(bytes, seconds);
        Ed25519.Sign(seed, Message(checkpoint, seconds)).CopyTo(bytes.AsSpan(TimeBytes));
        return bytes;
    }

    public static bool TryVerify(byte[] key, string checkpoint, byte[] signature, out DateTimeOffset? at)
    {
        at = null;
        if (signature.Length != TimeBytes + Ed25519.SignatureBytes)
        {
            return false;
        }

        var seconds = BinaryPrimitives.ReadInt64BigEndian(signature);
        if (seconds < 0 || seconds > DateTimeOffset.MaxValue.ToUnixTimeSeconds())
        {
            return false;
        }

        if (!Ed25519.Verifies(key, Message(checkpoint, seconds), signature[TimeBytes..]))
        {
            return false;
        }

        at = DateTimeOffset.FromUnixTimeSeconds(seconds);
        return true;
    }

    private static byte[] Message(string checkpoint, long seconds) =>
        LogText.Encode($"cosignature/v1\ntime {LogText.Number(seconds)}\n{checkpoint}");
}
