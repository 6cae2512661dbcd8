namespace ServiceRules.Evidence.Log;

/// <summary>One thing that keeps a text from being a checkpoint, a signed note, a proof or a key.</summary>
/// <param name="Line">Line of the text, from 1.</param>
/// <param name="Found">What stands there, in words for a person.</param>
/// <param name="Accepted">What would be accepted instead.</param>
public sealed record LogTextFault(int Line, string Found, string Accepted)
{
    /// <summary>One line for a person: where, what was found, what is accepted.</summary>
    public override string ToString() =>
        FormattableString.Invariant($"line {Line}: {Found}; accepted: {Accepted}");
}
