using ServiceRules.Domain;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation;

/// <summary>A gauge of less standing that contradicts one of better standing at a place, nothing turned between.</summary>
/// <param name="Better">The gauge whose readings count.</param>
/// <param name="Other">The one that contradicts it.</param>
/// <param name="OtherIsUnregistered">It is not in the site's register, while the better one is; else it has no certificate.</param>
public sealed record GaugeOutvoted(Id<Instrument> Better, Id<Instrument> Other, bool OtherIsUnregistered)
{
    /// <summary>What is said of it beside a verdict.</summary>
    public string Words =>
        $"{Other} reads otherwise than {Better} here, with nothing turned between, and {(OtherIsUnregistered ? "is not in the register of gauges" : "has no certificate")}: it puts nothing in and outvotes nothing, and what it contradicts is not proven in; read again with a second gauge of the same standing as {Better}";
}
