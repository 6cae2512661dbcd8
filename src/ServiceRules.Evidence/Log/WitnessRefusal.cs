namespace ServiceRules.Evidence.Log;

/// <summary>Why a witness does not cosign, by the status codes that C2SP tlog-witness gives the same answers.</summary>
public enum WitnessRefusal
{
    /// <summary>No refusal.</summary>
    None = 0,

    /// <summary>The earlier size is above the size of the checkpoint.</summary>
    OldSizeAboveNew = 400,

    /// <summary>No key trusted for the log signed the checkpoint, or a signature in its name does not hold.</summary>
    NotSignedByTheLog = 403,

    /// <summary>The witness knows no log of this name.</summary>
    UnknownLog = 404,

    /// <summary>The earlier size is not the one cosigned last.</summary>
    OtherOldSize = 409,

    /// <summary>The checkpoint does not continue the one cosigned last.</summary>
    NotConsistent = 422,
}
