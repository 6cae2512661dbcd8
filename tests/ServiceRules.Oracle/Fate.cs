namespace ServiceRules.Oracle;

/// <summary>What became of a reading by everything that stands after it in the bench log of its unit.</summary>
/// <param name="OwnTurned">Its own fine adjuster was turned.</param>
/// <param name="Disturbed">Something else made it void.</param>
/// <param name="Carried">Half width in millimetres that each adjuster's known steps add, governing print.</param>
internal sealed record Fate(bool OwnTurned, bool Disturbed, IReadOnlyList<decimal> Carried)
{
    public bool IsVoid => OwnTurned || Disturbed;
}
