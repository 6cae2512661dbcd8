namespace ServiceRules.Evidence.Log;

/// <summary>What signs the checkpoints of a log: a key in a file, or a device that never gives it away.</summary>
public interface ILogSigner
{
    /// <summary>The key that its signatures are checked with; its name is the log's origin.</summary>
    NoteKey Key { get; }

    /// <summary>Signs bytes by the algorithm of the key: ECDSA on P-256 over their SHA-256, in DER.</summary>
    byte[] Sign(ReadOnlySpan<byte> text);
}
