namespace ServiceRules.Reporting.Layout;

/// <summary>The drawn mark of an outcome. Each has a silhouette of its own, so that none needs colour.</summary>
public enum Mark
{
    /// <summary>Filled disc with a tick.</summary>
    In,

    /// <summary>Filled square with a cross.</summary>
    Out,

    /// <summary>Open ring with a gap and a dot.</summary>
    NotProven,

    /// <summary>A dash.</summary>
    DoesNotApply,

    /// <summary>Filled octagon with a bar.</summary>
    Stop,

    /// <summary>Filled upright triangle with a bar and a dot.</summary>
    Caution,
}
