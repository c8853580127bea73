"""Preserving: what drying takes from food and leaves of it.

Takes plain numbers in SI units; gives the same. Opens no file, reads no clock, and may import
nothing but its own modules.

`yields` holds the balances, `lots` what weighings say, `drying` rates and targets, `runs` how short
a run can be, `loads` and `tray_fitting` the trays, `packing` and `absorbers` the containers,
`keeping` and `quality_bases` how long the quality lasts, `label_text` what a label's square says.
"""
