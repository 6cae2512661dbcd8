using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Explaining;

/// <summary>What the limit sheet and the setting order in force say of a quantity that a check looks at.</summary>
/// <param name="Unit">The unit; its sheet says it.</param>
/// <param name="Quantity">The quantity.</param>
/// <param name="Limit">What the sheet states; null: nothing.</param>
/// <param name="File">The file of the sheet, relative to the folder of rules.</param>
/// <param name="Pointer">Where in the file.</param>
/// <param name="Target">The target in force, where one is.</param>
public sealed record LimitBehind(
    UnitFrame Unit,
    MeasuredQuantity Quantity,
    QuantityLimit? Limit,
    string File,
    string Pointer,
    TargetSeen? Target
)
{
    /// <summary>The quantity whose limits a check holds its readings against; null: it holds them against none of a sheet.</summary>
    public static MeasuredQuantity? QuantityOf(Check check) =>
        check switch
        {
            Check.LimitOnQuantity limit => limit.Quantity,
            Check.ProceduralLimit limit => limit.Quantity,
            Check.Contact contact => contact.Quantity,
            Check.Spread spread => spread.Quantity,
            Check.Parallelism parallelism => parallelism.Quantity,
            Check.ReelForm => MeasuredQuantity.ReelDiameter,
            Check.Twist => MeasuredQuantity.FrontRollerOnPlate,
            _ => null,
        };
}
