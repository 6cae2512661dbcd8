namespace ServiceRules.Evidence;

/// <summary>Why a document has no canonical form.</summary>
public enum CanonicalRefusalReason
{
    /// <summary>More bytes than <see cref="CanonicalJson.MaxBytes"/>.</summary>
    TooLarge,

    /// <summary>The bytes are not valid UTF-8.</summary>
    InvalidUtf8,

    /// <summary>The bytes are not exactly one JSON value by RFC 8259.</summary>
    NotJson,

    /// <summary>Objects and arrays nested deeper than <see cref="CanonicalJson.MaxDepth"/>.</summary>
    TooDeep,

    /// <summary>One object has the same member name twice.</summary>
    DuplicateName,

    /// <summary>A name or string has half of a surrogate pair, which no UTF-8 text can carry.</summary>
    LoneSurrogate,

    /// <summary>A number is beyond what an IEEE 754 double can hold.</summary>
    NumberNotFinite,
}
