using ServiceRules.Domain.Site;

namespace ServiceRules.Host.Filing;

/// <summary>Another record that bears on a job.</summary>
/// <param name="Id">The record.</param>
/// <param name="Machine">Its machine.</param>
/// <param name="Entries">How many of its entries bear on the job.</param>
internal sealed record ToldOther(string Id, string Machine, int Entries)
{
    public static ToldOther Of(OtherRecord other) =>
        new(other.Record.Text, other.Machine.Text, other.Timeline.Length + other.Bench.Length);
}
