namespace ServiceRules.Evidence.Log;

/// <summary>Kinds of signatures in notes that are understood here, by the type bytes of C2SP signed-note.</summary>
#pragma warning disable CA1027 // Not flags: the standard numbers its kinds so.
public enum NoteAlgorithm
#pragma warning restore CA1027
{
    /// <summary>No kind.</summary>
    None = 0,

    /// <summary>Ed25519 (RFC 8032) over the text: only checked here, never made.</summary>
    Ed25519 = 0x01,

    /// <summary>ECDSA on P-256 over the SHA-256 of the text, in DER: what a log signs its checkpoints with.</summary>
    EcdsaP256 = 0x02,

    /// <summary>Ed25519 over time and checkpoint, after C2SP tlog-cosignature: what a witness signs with.</summary>
    CosignatureV1 = 0x04,
}
