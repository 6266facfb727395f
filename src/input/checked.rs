//! Checked types: declared with the record from which they come, field by field.
//!
//! In: the fields of a `record!`. Out: a struct of plain values, and how it is made of the typed record.
//! May not know: what any record is for.

/// Declares the checked type of a record, which `record!` calls with what stands after `=>`:
///
/// ```text
/// record! {
///     /// A rod, and how it is cut.
///     pub struct RodEntry as "rod" => Rod[place] {
///         /// Lengths as delivered.
///         length as lengths: Vec<Length>, needed, "[\"26 in\"]";
///         /// Price; left out, nothing.
///         price: Money, default(Money::ZERO), "12.50";
///     } with {
///         /// Its unit.
///         unit: Unit,
///     }
/// }
/// ```
/// A `needed` field becomes its plain value, and without it nothing comes of the record; one with `default(…)` has that where
/// nothing good was given (so has `needed default(…)`, whose absence was reported); any other is an `Option`, or a list that may
/// be empty; `option` makes it so although the field is needed. `slot` keeps place and standing, `apart` leaves the field out; these
/// three are written first. `as` gives the checked field
/// another name, attributes before the type are its own. `[place]` adds where the record was written, `[place = price]` where that field was. What `with` lists is worked
/// out by hand and handed to the function `checked`, in this order; a record without it can be a field of another.
macro_rules! checked {
    (
        $attributes:tt $vis:vis struct $checked:ident from $record:ident $at:tt $by_hand:tt {
            $(
                $(#[doc = $help:literal])*
                $field:ident $(as $name:ident)? : $kind:ty,
                    $($flag:ident $(($($inside:tt)*))?)* $(,)? $([$low:literal to $high:literal],)? $example:literal;
            )*
        }
    ) => {
        $crate::input::checked! {
            @fields [$attributes $vis struct $checked from $record] $at $by_hand []
            $({ $field [$($name)?] ($kind) [$(#[doc = $help])*] $($flag $(($($inside)*))?)* })*
        }
    };
    // Field by field: what is apart is dropped, and a field without a name of its own keeps its key.
    (@fields $head:tt $at:tt $by_hand:tt $done:tt { $field:ident $name:tt $kind:tt $help:tt apart $($flags:tt)* } $($rest:tt)*) => {
        $crate::input::checked! { @fields $head $at $by_hand $done $($rest)* }
    };
    (@fields $head:tt $at:tt $by_hand:tt [$($done:tt)*] { $field:ident [] $($of_it:tt)* } $($rest:tt)*) => {
        $crate::input::checked! { @fields $head $at $by_hand [$($done)* { $field $field $($of_it)* }] $($rest)* }
    };
    (@fields $head:tt $at:tt $by_hand:tt [$($done:tt)*] { $field:ident [$name:ident] $($of_it:tt)* } $($rest:tt)*) => {
        $crate::input::checked! { @fields $head $at $by_hand [$($done)* { $field $name $($of_it)* }] $($rest)* }
    };
    (
        @fields [[$(#[$attribute:meta])*] $vis:vis struct $checked:ident from $record:ident]
        [$($place:ident $(= $spot:ident)?)?]
        [$($(#[doc = $hand_help:literal])* $hand:ident : $hand_kind:ty,)*]
        [$({ $field:ident $name:ident ($kind:ty) [$(#[doc = $help:literal])*] $($flags:tt)* })*]
    ) => {
        $(#[$attribute])*
        #[derive(Clone, Debug)]
        $vis struct $checked {
            $($(#[doc = $hand_help])* pub $hand: $hand_kind,)*
            $($(#[doc = $help])* pub $name: $crate::input::held!(@kind $kind; $($flags)*),)*
            $(
                /// Where it was written.
                pub $place: $crate::findings::Place,
            )?
        }

        impl $record {
            /// What comes of it; none where something needed is missing or bad, which was reported.
            pub fn checked(&self, $($hand: $hand_kind),*) -> Option<$checked> {
                Some($checked {
                    $($name: $crate::input::held!(@value self.$field, $kind; $($flags)*),)*
                    $($place: $crate::input::held!(@place self $($spot)?),)?
                    $($hand,)*
                })
            }
        }

        $crate::input::checked! { @plain $checked from $record [$($hand)*] }
    };
    (@plain $checked:ident from $record:ident []) => {
        impl $crate::input::Plain for $record {
            type Value = $checked;
            type Optional = Option<$checked>;

            fn value(&self) -> Option<$checked> {
                self.checked()
            }

            fn optional(slot: &$crate::input::Slot<Self>) -> Option<$checked> {
                slot.value()
            }
        }
    };
    (@plain $checked:ident from $record:ident $by_hand:tt) => {};
}
pub(crate) use checked;

/// What a checked type holds of a field, by the field's flags: its type and its value.
macro_rules! held {
    (@kind $kind:ty; needed $($rest:tt)*) => { <$kind as $crate::input::Plain>::Value };
    (@kind $kind:ty; default $value:tt $($rest:tt)*) => { <$kind as $crate::input::Plain>::Value };
    (@kind $kind:ty; option $($rest:tt)*) => { <$kind as $crate::input::Plain>::Optional };
    (@kind $kind:ty; slot $($rest:tt)*) => { $crate::input::Slot<$kind> };
    (@kind $kind:ty; $flag:ident ($($inside:tt)*) $($rest:tt)*) => { $crate::input::held!(@kind $kind; $($rest)*) };
    (@kind $kind:ty; $flag:ident $($rest:tt)*) => { $crate::input::held!(@kind $kind; $($rest)*) };
    (@kind $kind:ty;) => { <$kind as $crate::input::Plain>::Optional };

    (@value $slot:expr, $kind:ty; needed default($value:expr) $($rest:tt)*) => { $slot.value().unwrap_or_else(|| $value) };
    (@value $slot:expr, $kind:ty; default($value:expr) $($rest:tt)*) => { $slot.value().unwrap_or_else(|| $value) };
    (@value $slot:expr, $kind:ty; needed $($rest:tt)*) => { $slot.value()? };
    (@value $slot:expr, $kind:ty; option $($rest:tt)*) => { <$kind as $crate::input::Plain>::optional(&$slot) };
    (@value $slot:expr, $kind:ty; slot $($rest:tt)*) => { $slot.clone() };
    (@value $slot:expr, $kind:ty; $flag:ident ($($inside:tt)*) $($rest:tt)*) => {
        $crate::input::held!(@value $slot, $kind; $($rest)*)
    };
    (@value $slot:expr, $kind:ty; $flag:ident $($rest:tt)*) => { $crate::input::held!(@value $slot, $kind; $($rest)*) };
    (@value $slot:expr, $kind:ty;) => { <$kind as $crate::input::Plain>::optional(&$slot) };

    (@place $record:ident) => { $record.written_at.clone()? };
    (@place $record:ident $spot:ident) => { $record.$spot.place()?.clone() };
}
pub(crate) use held;
