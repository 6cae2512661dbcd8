using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>What entries of a bench log tell of hands at a unit.</summary>
public static class BenchActs
{
    /// <summary>
    /// What was done at the unit; null: nothing that takes hands to it or turns the reel. What is only looked at may be seen from where
    /// nothing can reach; play in a bearing is felt, however it is entered.
    /// </summary>
    /// <param name="entry">The bench entry.</param>
    public static BenchAct? Of(BenchEntry entry) =>
        entry switch
        {
            Adjustment => BenchAct.AdjusterTurned,
            PartFitted => BenchAct.PartFitted,
            Grinding { Kind: GrindingKind.Lapping } => BenchAct.ReelLapped,
            Reading { Observed: Observation.FeelerTest } => BenchAct.FeelerTried,
            Reading { Observed: Observation.Paper } => BenchAct.PaperTried,
            Reading { Observed: Observation.Contact } => BenchAct.ContactFelt,
            Reading { Observed: Observation.Measured or Observation.MeasuredAngle } => BenchAct.GaugeHeld,
            Reading { Quantity: MeasuredQuantity.BearingPlay, Observed: Observation.Seen } =>
                BenchAct.PlayFelt,
            _ => null,
        };
}
