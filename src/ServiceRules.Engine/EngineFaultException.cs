namespace ServiceRules.Engine;

/// <summary>
/// The engine itself failed: a condition threw, facts clashed, or inference did not come to rest. No verdict may
/// be read from a run that ended so; it is never a finding about the work that was judged.
/// </summary>
public sealed class EngineFaultException : Exception
{
    /// <summary>Creates a fault.</summary>
    /// <param name="message">What failed and where.</param>
    /// <param name="cause">The error underneath, if there was one.</param>
    public EngineFaultException(string message, Exception? cause = null)
        : base(message, cause) { }
}
